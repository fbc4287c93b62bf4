#include "press/pdf.hpp"

#include <cairo-pdf.h>
#include <fmt/core.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>
#include <optional>

#include "drawing/outline.hpp"
#include "press/second_pass.hpp"
#include "text/utf8.hpp"

namespace norma::press {
namespace {

using drawing::Anchor;
using drawing::Item;
using drawing::Line;
using drawing::Paragraph;
using drawing::Part;
using drawing::Spot;
using drawing::TextBox;

constexpr double points = 72.0 / 25.4; // in a millimetre

template <class T, auto Release> struct Released {
  void operator()(T* what) const { Release(what); }
};
template <class T, auto Release> using Held = std::unique_ptr<T, Released<T, Release>>;
using Layout = Held<PangoLayout, [](PangoLayout* l) { g_object_unref(l); }>;
using Context = Held<PangoContext, [](PangoContext* c) { g_object_unref(c); }>;
using Surface = Held<cairo_surface_t, cairo_surface_destroy>;
using Cairo = Held<cairo_t, cairo_destroy>;

/// Two fonts of our own: nothing of the machine's can change a page.
void use_own_fonts() {
  static const bool once = [] {
    FcConfig* config = FcConfigCreate();
    for (const char* file : {NORMA_FONT, NORMA_FONT_BOLD})
      FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(file));
    const bool set = FcConfigSetCurrent(config) == FcTrue;
    FcConfigDestroy(config); // it is held as the current one
    return set;
  }();
  static_cast<void>(once);
}

class Press {
 public:
  explicit Press(const drawing::Paper& paper) : paper_(paper) {}

  cli::Printed print() {
    use_own_fonts();
    surface_.reset(cairo_pdf_surface_create_for_stream(&collect, &bytes_, 1, 1));
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, paper_.title.c_str());
    // The day is not told: the same pages are the same bytes.
    for (const auto what : {CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE})
      cairo_pdf_surface_set_metadata(surface_.get(), what, "2000-01-01T00:00:00Z");
    cairo_.reset(cairo_create(surface_.get()));
    context_.reset(pango_cairo_create_context(cairo_.get()));
    // Letters stand where they belong, not on a screen's dots.
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    cairo_font_options_t* const options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(context_.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_language(context_.get(), pango_language_from_string(paper_.language.c_str()));
    tag_begin("Document");
    for (const drawing::PaperPage& one : paper_.pages)
      page(one);
    for (const drawing::Flow& one : paper_.flows)
      flow(one);
    tag_end("Document");
    cairo_status_t status = cairo_status(cairo_.get());
    cairo_.reset();
    cairo_surface_finish(surface_.get());
    // A surface that failed as it was finished says so only now.
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface_.get());
    if (status != CAIRO_STATUS_SUCCESS) {
      out_.failed = cairo_status_to_string(status);
      return std::move(out_);
    }
    try {
      out_.bytes = second_pass(bytes_, paper_.title, paper_.language, alts_);
    } catch (const std::exception& e) {
      out_.failed = e.what();
    }
    return std::move(out_);
  }

 private:
  static cairo_status_t collect(void* to, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  }
  void tag_begin(const char* tag) { cairo_tag_begin(cairo_.get(), tag, nullptr); }
  void tag_end(const char* tag) { cairo_tag_end(cairo_.get(), tag); }

  /// From here on all is in mm of this page. `name`: in the outline; "" leaves it out.
  void begin_page(double width, double height, const std::string& name) {
    ++out_.pages;
    cairo_pdf_surface_set_size(surface_.get(), width * points, height * points);
    if (!name.empty())
      cairo_pdf_surface_add_outline(surface_.get(), CAIRO_PDF_OUTLINE_ROOT, name.c_str(),
                                    fmt::format("page={}", out_.pages).c_str(),
                                    static_cast<cairo_pdf_outline_flags_t>(0));
    cairo_save(cairo_.get());
    cairo_scale(cairo_.get(), points, points);
  }
  void end_page() {
    cairo_restore(cairo_.get());
    cairo_show_page(cairo_.get());
  }

  void page(const drawing::PaperPage& page) {
    begin_page(page.width, page.height, page.name);
    items(page.items);
    // In the order in which it is read: the title, then drawings, then what they belong to.
    bool first = true;
    for (const TextBox& box : page.boxes) {
      text_box(box, page);
      if (!first) continue;
      first = false;
      for (const drawing::Figure& f : page.figures) {
        tag_begin("Figure");
        alts_.push_back(f.alt);
        items({drawing::placed(f.drawing, f.at, f.scale, f.turn)});
        tag_end("Figure");
      }
    }
    end_page();
  }

  // Shapes ---------------------------------------------------------------------------------------

  void set_colour(std::uint32_t rgb) {
    const auto part = [&](unsigned shift) { return ((rgb >> shift) & 0xffu) / 255.0; };
    cairo_set_source_rgb(cairo_.get(), part(16), part(8), part(0));
  }
  void set_colour(drawing::Role role) { set_colour(drawing::look_of(role).fill.value_or(0)); }
  void path(const Line& line) {
    cairo_t* const c = cairo_.get();
    cairo_new_path(c);
    if (line.through.empty()) return;
    cairo_move_to(c, line.through.front().x, line.through.front().y);
    if (line.smooth) {
      for (const drawing::Curve& k : drawing::curves(line))
        cairo_curve_to(c, k.near_from.x, k.near_from.y, k.near_to.x, k.near_to.y, k.to.x, k.to.y);
    } else {
      for (std::size_t i = 1; i < line.through.size(); ++i)
        cairo_line_to(c, line.through[i].x, line.through[i].y);
    }
    if (line.closed) cairo_close_path(c);
  }
  void items(const std::vector<Item>& all) {
    for (const Item& item : all) {
      if (item.label) {
        clip(!clips_.empty());
        label(item.role, *item.label);
      }
      for (const drawing::Group& g : item.group) {
        clip(false);
        clips_.push_back(&g.clip);
        items(g.items);
        clip(false);
        clips_.pop_back();
      }
      if (!item.line.through.empty()) shape(item);
    }
  }
  void shape(const Item& item) {
    const drawing::Look& look = drawing::look_of(item.role);
    clip(!lies_within_clips(item.line, look.width));
    path(item.line);
    if (look.fill) {
      set_colour(*look.fill);
      cairo_fill_preserve(cairo_.get());
    }
    if (look.line) {
      set_colour(*look.line);
      cairo_set_line_width(cairo_.get(), look.width);
      cairo_stroke_preserve(cairo_.get());
    }
    cairo_new_path(cairo_.get());
  }
  /// What lies within is drawn without a clip: a page would tell that again for each shape.
  [[nodiscard]] bool lies_within_clips(const Line& line, double width) const {
    // What is curved leaves its spots a little.
    constexpr double curved = 0.8;
    const double spare = width + (line.smooth ? curved : 0.0);
    return std::all_of(clips_.begin(), clips_.end(), [&](const Line* clip) {
      return std::all_of(line.through.begin(), line.through.end(),
                         [&](Spot s) { return drawing::holds_circle(clip->through, s, spare); });
    });
  }
  void clip(bool wanted) {
    if (clipped_ == wanted) return;
    clipped_ = wanted;
    if (!wanted) return cairo_restore(cairo_.get());
    cairo_save(cairo_.get());
    for (const Line* one : clips_) {
      path(*one);
      cairo_clip(cairo_.get());
    }
  }

  // Text -----------------------------------------------------------------------------------------

  /// A line or paragraph, set `size` mm high and broken at `width` mm.
  Layout layout_of(const std::vector<drawing::Run>& runs, double size,
                   std::optional<double> width) {
    Layout out(pango_layout_new(context_.get()));
    std::string all;
    PangoAttrList* const attributes = pango_attr_list_new();
    // 'fl' as one letter would need a font of its own.
    pango_attr_list_insert(attributes, pango_attr_font_features_new("liga=0, clig=0"));
    for (const drawing::Run& run : runs) {
      const std::size_t from = all.size();
      // A page holds less, and breaking what is longer into lines takes its time.
      constexpr std::size_t most = 6000;
      const std::string whole = text::printable(run.text);
      const std::string_view fits = text::cut(whole, most);
      cut_ = cut_ || fits.size() < whole.size();
      all += fits;
      PangoAttribute* const weight =
          pango_attr_weight_new(run.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
      weight->start_index = static_cast<guint>(from);
      weight->end_index = static_cast<guint>(all.size());
      pango_attr_list_insert(attributes, weight);
    }
    PangoFontDescription* const font = pango_font_description_from_string("Open Sans");
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_layout_set_font_description(out.get(), font);
    pango_font_description_free(font);
    pango_layout_set_text(out.get(), all.c_str(), static_cast<int>(all.size()));
    pango_layout_set_attributes(out.get(), attributes);
    pango_attr_list_unref(attributes);
    if (width) {
      pango_layout_set_width(out.get(), static_cast<int>(*width * PANGO_SCALE));
      pango_layout_set_wrap(out.get(), PANGO_WRAP_WORD_CHAR);
    }
    return out;
  }
  static double height_of(const Layout& layout) {
    int width = 0;
    int height = 0;
    pango_layout_get_size(layout.get(), &width, &height);
    return height / double(PANGO_SCALE);
  }
  static double width_of(const Layout& layout) {
    int width = 0;
    int height = 0;
    pango_layout_get_size(layout.get(), &width, &height);
    return width / double(PANGO_SCALE);
  }

  void label(drawing::Role role, const drawing::Label& l) {
    const Layout layout = layout_of({{l.text, l.bold}}, l.size, {});
    set_colour(role);
    const double above = pango_layout_get_baseline(layout.get()) / double(PANGO_SCALE);
    show(layout, {l.at.x, l.at.y - above}, 0, l.anchor);
  }

  /// Line by line: text that is wrapped stays whole where it is read aloud.
  void show(const Layout& layout, Spot at, double width, Anchor anchor) {
    out_.letters_missing += pango_layout_get_unknown_glyphs_count(layout.get());
    PangoLayoutIter* const it = pango_layout_get_iter(layout.get());
    do {
      PangoRectangle extents;
      pango_layout_iter_get_line_extents(it, nullptr, &extents);
      const double spare = width - extents.width / double(PANGO_SCALE);
      const double x = at.x + (anchor == Anchor::end      ? spare
                               : anchor == Anchor::middle ? 0.5 * spare
                                                          : 0.0);
      cairo_move_to(cairo_.get(), x,
                    at.y + pango_layout_iter_get_baseline(it) / double(PANGO_SCALE));
      pango_cairo_show_layout_line(cairo_.get(), pango_layout_iter_get_line_readonly(it));
    } while (pango_layout_iter_next_line(it));
    pango_layout_iter_free(it);
  }

  static double indent_of(const Paragraph& p) {
    return p.part == Part::number || p.part == Part::tick ? 1.35 * p.size : 0.0;
  }
  /// `set`: the paragraphs at that scale, for who draws them.
  double height_at(const TextBox& box, double scale, std::vector<Layout>& set) {
    double height = 0;
    set.clear();
    for (const Paragraph& p : box.paragraphs) {
      const double width = box.width - scale * indent_of(p);
      if (!set.empty()) height += scale * p.before;
      set.push_back(layout_of(p.runs, scale * p.size, width));
      height += height_of(set.back());
    }
    return height;
  }

  void text_box(const TextBox& box, const drawing::PaperPage& page) {
    double scale = 1;
    cut_ = false;
    constexpr double step = 0.94;
    std::vector<Layout> set;
    while (height_at(box, scale, set) > box.height) {
      scale *= step;
      if (scale >= box.least) continue;
      scale = box.least;
      cut_ = height_at(box, scale, set) > box.height || cut_;
      break;
    }
    if (cut_) out_.too_long.push_back(page.name);
    cairo_save(cairo_.get());
    cairo_rectangle(cairo_.get(), box.at.x - 0.5, box.at.y - 0.5, box.width + 1, box.height + 1);
    cairo_clip(cairo_.get());
    double y = box.at.y;
    int number = 0;
    for (std::size_t i = 0; i < box.paragraphs.size(); ++i) {
      const Paragraph& p = box.paragraphs[i];
      const Layout& layout = set[i];
      const double size = scale * p.size;
      const double indent = scale * indent_of(p);
      if (i > 0) y += scale * p.before;
      set_colour(p.role);
      const char* const tag = p.part == Part::title ? "H1" : p.part == Part::heading ? "H2" : "P";
      tag_begin(tag);
      if (p.part == Part::number)
        show(layout_of({{fmt::format("{}.", ++number), false}}, size, {}), {box.at.x, y}, 0, {});
      show(layout, {box.at.x + indent, y}, box.width - indent, box.anchor);
      tag_end(tag);
      if (p.part == Part::tick) tick(box.at.x, y, size);
      y += height_of(layout);
    }
    cairo_restore(cairo_.get());
  }
  /// A square to tick, beside the first line.
  void tick(double x, double y, double size) {
    items({drawing::shape(drawing::Role::thin_panel,
                          drawing::box({x + 0.2, y + 0.32 * size}, 0.75 * size, 0.75 * size))});
  }

  // Text that runs on ----------------------------------------------------------------------------

  struct FlowLook {
    double size; // of its letters, mm
    bool bold;
    double before; // mm of space above it
    double indent;
    const char* tag;
  };
  static FlowLook look_of(drawing::Piece piece) {
    using drawing::Piece;
    switch (piece) {
    case Piece::title: return {6.4, true, 0, 0, "H1"};
    case Piece::heading: return {4.6, true, 3.4, 0, "H2"};
    case Piece::subheading: return {3.9, true, 2.6, 0, "H3"};
    case Piece::item: return {3.3, false, 0.6, 3.4, "P"};
    case Piece::tick: return {3.3, false, 1.0, 5.2, "P"};
    case Piece::fields: return {3.3, false, 1.4, 0, "P"};
    case Piece::text: break;
    }
    return {3.4, false, 1.2, 0, "P"};
  }

  void flow(const drawing::Flow& f) {
    constexpr double margin = 12;
    const double width = f.width - 2 * margin;
    const double bottom = f.height - margin - 5;
    double y = 0;
    bool open = false;
    int of_flow = 0;
    const auto close = [&] {
      if (!open) return;
      const Layout foot = layout_of({{fmt::format("{}  {}", f.name, of_flow), false}}, 2.6, width);
      set_colour(drawing::Role::faint_word);
      tag_begin("P");
      show(foot, {margin, f.height - margin - 1}, width, Anchor::start);
      tag_end("P");
      end_page();
      open = false;
    };
    const auto begin = [&] {
      close();
      open = true;
      y = margin;
      begin_page(f.width, f.height, ++of_flow == 1 ? f.name : "");
    };
    begin();
    for (std::size_t i = 0; i < f.entries.size(); ++i) {
      const drawing::FlowEntry& e = f.entries[i];
      if (e.new_page && i > 0) begin();
      const FlowLook look = look_of(e.piece);
      cut_ = false;
      const double high = height_in(e, width);
      const bool too_long = cut_ || margin + high > bottom;
      // A heading stays with what stands below it.
      double together = look.before + high;
      for (std::size_t k = i + 1; k < f.entries.size() && is_heading(f.entries[k - 1].piece); ++k)
        together += look_of(f.entries[k].piece).before + height_in(f.entries[k], width);
      if (too_long) out_.too_long.push_back(f.name);
      if (y > margin && y + together > bottom) begin();
      if (y > margin) y += look.before;
      entry(e, {margin, y}, width);
      y += high;
    }
    close();
  }
  static bool is_heading(drawing::Piece piece) {
    return piece == drawing::Piece::title || piece == drawing::Piece::heading ||
           piece == drawing::Piece::subheading;
  }
  double height_in(const drawing::FlowEntry& e, double width) {
    const FlowLook look = look_of(e.piece);
    if (e.piece == drawing::Piece::fields) return fields(e, {}, width, false);
    return height_of(layout_of({{e.text, look.bold}}, look.size, width - look.indent)) +
           (e.piece == drawing::Piece::title ? 1.5 : 0.0);
  }
  void entry(const drawing::FlowEntry& e, Spot at, double width) {
    const FlowLook look = look_of(e.piece);
    set_colour(e.piece == drawing::Piece::heading ? drawing::Role::accent_word
                                                  : drawing::Role::word);
    tag_begin(look.tag);
    if (e.piece == drawing::Piece::fields) {
      fields(e, at, width, true);
    } else {
      if (e.piece == drawing::Piece::item)
        show(layout_of({{"\xe2\x80\x93", false}}, look.size, {}), at, 0, {});
      show(layout_of({{e.text, look.bold}}, look.size, width - look.indent),
           {at.x + look.indent, at.y}, width - look.indent, Anchor::start);
    }
    tag_end(look.tag);
    if (e.piece == drawing::Piece::tick) tick(at.x, at.y, look.size);
    if (e.piece == drawing::Piece::title) {
      const double y = at.y + height_in(e, width) - 0.6;
      items({drawing::shape(drawing::Role::panel, {{{at.x, y}, {at.x + width, y}}, false, false})});
    }
  }

  /// Places to write on share what room is left in a line. The height of it all; drawn where asked.
  double fields(const drawing::FlowEntry& e, Spot at, double width, bool draw) {
    constexpr double least = 26; // mm to write on
    constexpr double apart = 4;
    const FlowLook look = look_of(e.piece);
    const double line_height = 1.75 * look.size;
    struct One {
      Layout label;
      double width;
      const drawing::FlowField* field;
    };
    std::vector<std::vector<One>> lines(1);
    double taken = 0;
    const auto add = [&](std::string text, const drawing::FlowField* field) {
      if (field != nullptr && field->line) text += ":";
      Layout label = layout_of({{std::move(text), false}}, look.size, {});
      const double box = field != nullptr && field->box ? 1.35 * look.size : 0;
      const double wide = width_of(label) + box;
      const double needs = wide + (field != nullptr && field->line ? least : 0);
      if (!lines.back().empty() && taken + apart + needs > width) {
        lines.emplace_back();
        taken = 0;
      }
      taken += needs + (lines.back().empty() ? 0 : apart);
      lines.back().push_back({std::move(label), wide, field});
    };
    if (!e.text.empty()) add(e.text + ":", nullptr);
    for (const drawing::FlowField& f : e.fields)
      add(f.text, &f);
    if (!draw) return line_height * static_cast<double>(lines.size());
    double y = at.y;
    for (const std::vector<One>& line : lines) {
      double spare = width - apart * static_cast<double>(line.size() - 1);
      double to_write = 0;
      for (const One& one : line) {
        spare -= one.width;
        to_write += one.field != nullptr && one.field->line ? 1 : 0;
      }
      const double each = to_write > 0 ? spare / to_write : 0;
      double x = at.x;
      for (const One& one : line) {
        const bool box = one.field != nullptr && one.field->box;
        const double indent = box ? 1.35 * look.size : 0;
        if (box) tick(x, y, look.size);
        set_colour(drawing::Role::word);
        show(one.label, {x + indent, y}, 0, {});
        x += one.width;
        if (one.field != nullptr && one.field->line) {
          const double foot = y + 1.3 * look.size;
          items({drawing::shape(drawing::Role::rule,
                                {{{x + 1, foot}, {x + each, foot}}, false, false})});
          x += each;
        }
        x += apart;
      }
      y += line_height;
    }
    return y - at.y;
  }

  const drawing::Paper& paper_;
  std::string bytes_;
  Surface surface_;
  Cairo cairo_;
  Context context_;
  std::vector<std::string> alts_;
  std::vector<const Line*> clips_; // within which is drawn
  bool clipped_ = false;           // cairo has them
  bool cut_ = false;               // a text was too long to be set at all
  cli::Printed out_;
};

} // namespace

cli::Printed pdf(const drawing::Paper& paper) { return Press(paper).print(); }

} // namespace norma::press
