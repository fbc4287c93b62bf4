// Cards at the chair: what a view's page tells, before it is laid out on paper or screen.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/display.hpp"
#include "emit/card_settings.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// One person, and what both hands hold.
struct CardHands {
  std::string who;
  std::string holds; // all of it; "" for nothing
};
/// One step, and who does it.
struct CardStep {
  std::string who;
  std::string what;
};

/// One view.
struct Card {
  std::string name; // of the view, for links
  std::string title;
  std::string place; // `3 of 5`
  std::string code;
  bool optional = false;

  // Where it can be had
  bool had = true;
  std::vector<CardSetting> settings;
  std::string also_set;
  std::optional<drawing::Drawing> finder;
  std::string finder_words; // below it
  std::optional<drawing::Drawing> above;
  std::string no_drawing; // why there is none
  physics::Turn turn = physics::Turn::none;
  std::string turn_words;
  std::string camera;
  std::vector<CardHands> hands;
  std::vector<CardStep> steps; // what changes
  std::string as_before;
  std::vector<std::string> say;
  std::vector<std::string> look; // before the shutter is pressed
  std::vector<std::string> care;
  std::vector<std::string> stop;
  std::vector<std::string> again;
  std::vector<std::string> instead;

  // Where it cannot
  std::string not_had; // how it is headed
  std::vector<std::string> against;
  std::vector<std::string> would_do;
};

/// All cards of a series.
struct Cards {
  std::string title;
  std::string about;   // protocol, revision, group, series, kit, day
  std::string caution; // who decides
  std::vector<Card> cards;
  /// Something could not be read: no card, and this is told in their place.
  std::vector<std::string> unread;
};

/// The views of a series in its order, then second choices; `series` "": the longest.
Cards cards_of(const report::Report& report, const report::Held& held, std::string_view series,
               const wording::Language& in);

/// One self-contained page: it asks for nothing, and prints as the cards on paper.
std::string cards_html(const std::vector<Cards>& all, const wording::Language& in);
/// The same as one table, a row for each view.
std::string cards_in_rows_html(const std::vector<Cards>& all, const wording::Language& in);

} // namespace norma::emit
