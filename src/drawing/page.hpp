// Pages for paper: drawings, and boxes of text that a writer fills, smaller where it must.
#pragma once

#include <string>
#include <vector>

#include "drawing/display.hpp"

namespace norma::drawing {

/// Letters in a row that look alike.
struct Run {
  std::string text;
  bool bold = false;
};
/// What a paragraph is to who hears the page read aloud, and what stands before it.
enum class Part { title, heading, text, item, number, tick };
struct Paragraph {
  std::vector<Run> runs;
  double size = 4.4; // of its letters, mm
  Role role = Role::word;
  Part part = Part::text;
  double before = 0; // mm of space above it
};
/// Text within a box; set smaller, down to `least` of its size, until it fits.
struct TextBox {
  Spot at; // upper left corner
  double width = 0;
  double height = 0;
  std::vector<Paragraph> paragraphs;
  Anchor anchor = Anchor::start;
  double least = 0.55;
};
/// A drawing in its place.
struct Figure {
  Drawing drawing;
  Spot at;
  double scale = 1;
  physics::Turn turn = physics::Turn::none;
  std::string alt; // what is read aloud in its place

  [[nodiscard]] double width() const {
    return scale * (on_its_side(turn) ? drawing.height : drawing.width);
  }
  [[nodiscard]] double height() const {
    return scale * (on_its_side(turn) ? drawing.width : drawing.height);
  }
};
struct PaperPage {
  double width = 0; // mm
  double height = 0;
  std::string name;        // in the outline
  std::vector<Item> items; // lines and grounds; they say nothing
  std::vector<Figure> figures;
  std::vector<TextBox> boxes;
};
/// Text that runs on from page to page.
enum class Piece {
  title,
  heading,
  subheading,
  text,
  item,
  tick,
  fields, // things to tick and to write on, side by side
};
struct FlowField {
  std::string text;
  bool box = false;  // to tick
  bool line = false; // to write on
};
struct FlowEntry {
  Piece piece = Piece::text;
  std::string text;
  std::vector<FlowField> fields{};
  bool new_page = false; // it begins one
};
struct Flow {
  double width = 210; // of the pages, mm
  double height = 297;
  std::string name; // in the outline, and at the foot of each page
  std::vector<FlowEntry> entries;
};
/// A document for paper: pages that are laid out, then text that runs on.
struct Paper {
  std::string title;
  std::string language; // BCP 47
  std::vector<PaperPage> pages;
  std::vector<Flow> flows{};
};

} // namespace norma::drawing
