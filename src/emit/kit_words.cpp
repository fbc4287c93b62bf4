#include "emit/kit_words.hpp"

#include <fmt/core.h>

#include "emit/kit_due.hpp"
#include "kit/sections.hpp"
#include "kit/tell.hpp"
#include "physics/quantity_text.hpp"

namespace norma::emit {
namespace {

/// The rows of the kit's tables say how a value is told; here stands where.
class KitWords {
 public:
  explicit KitWords(const kit::Kit& kit) : kit_(kit) {}

  Document build() {
    const std::string name = kit_.name.value_or("a kit without a name");
    add(BlockKind::title,
        kit_.title.known() ? fmt::format("{} ({})", kit_.title.get(), name) : name);
    add(BlockKind::heading, "Camera");
    item(line_of(kit::kit_section(), kit_, ""));
    lens();
    lamps();
    pieces("Retractors", kit::retractor_section(), kit_.retractors);
    pieces("Mirrors", kit::mirror_section(), kit_.mirrors);
    attachments();
    under("People", line_of(kit::people_section(), kit_, ""));
    under("Mouths, as the retractors hold them", line_of(kit::mouth_section(), kit_.mouths, ""));
    own_values("Limits of this clinic's own", kit_.limits);
    own_values("Sizes of this clinic's patients", kit_.anatomy);
    teeth();
    return std::move(out_);
  }

 private:
  void add(BlockKind kind, std::string text) { out_.push_back({kind, std::move(text)}); }
  void item(std::string text) {
    if (!text.empty()) add(BlockKind::bullet, std::move(text));
  }
  void under(std::string heading, std::string line) {
    if (line.empty()) return;
    add(BlockKind::heading, std::move(heading));
    item(std::move(line));
  }

  /// Each piece of a list on a line of its own, its name first.
  template <class T> void items(const kit::Section<T>& section, const std::vector<T>& list) {
    for (const T& piece : list)
      item(line_of(section, piece, name_of(piece, section.what)));
  }
  template <class T>
  void pieces(std::string heading, const kit::Section<T>& section, const std::vector<T>& list) {
    add(BlockKind::heading, std::move(heading));
    items(section, list);
  }

  void lens() {
    add(BlockKind::heading, "Lens");
    if (!kit_.lens) return;
    item(line_of(kit::lens_section(), *kit_.lens, ""));
    for (const kit::DistanceRow& row : kit_.lens->working_distance) {
      item(fmt::format("at {} the front of the lens stands {} from the teeth",
                       physics::to_text(row.ratio), physics::to_text(row.distance)));
    }
  }

  void lamps() {
    add(BlockKind::heading, "Lamps");
    const kit::Section<kit::Lamp>& section = kit::lamp_section();
    for (const kit::Lamp& l : kit_.lamps) {
      const std::string name = name_of(l, section.what);
      item(line_of(section, l, name));
      if (!l.reference) continue;
      item(fmt::format("reference shot with {}: {}", name,
                       line_of(kit::reference_shot_section(), *l.reference, "")));
    }
  }

  void attachments() {
    if (!kit_.guides && !kit_.frames) return;
    add(BlockKind::heading, "Guides and frames");
    if (kit_.guides) items(kit::guide_section(), *kit_.guides);
    if (kit_.frames) items(kit::frame_section(), *kit_.frames);
  }

  void own_values(std::string heading, const std::vector<kit::OwnValue>& values) {
    if (values.empty()) return;
    add(BlockKind::heading, std::move(heading));
    for (const kit::OwnValue& l : values) {
      if (!l.value.known()) continue;
      item(fmt::format("{}: {}{}{} (norma's own: {})", l.which->name, l.value.get(),
                       l.which->unit.empty() ? "" : " ", l.which->unit, l.which->value));
    }
  }

  void teeth() {
    if (kit_.teeth.empty()) return;
    add(BlockKind::heading, "Teeth of this clinic's patients");
    for (const kit::ToothSizes& t : kit_.teeth) {
      if (!t.tooth.known()) continue;
      const std::string line = line_of(kit::tooth_section(), t, "");
      item(fmt::format("{} and {}: {}", t.tooth->iso(), t.tooth->other_side().iso(),
                       line.empty() ? "no size is given" : line));
    }
  }

  const kit::Kit& kit_;
  Document out_;
};

void add_list(Document& out, std::string heading, const std::vector<std::string>& lines,
              std::string none) {
  out.push_back({BlockKind::heading, std::move(heading)});
  if (lines.empty()) out.push_back({BlockKind::paragraph, std::move(none)});
  for (const std::string& line : lines)
    out.push_back({BlockKind::bullet, line});
}

} // namespace

Document kit_words(const kit::Kit& kit, words::Date on, const wording::Language& in) {
  Document out = KitWords(kit).build();
  std::vector<std::string> missing;
  add_missing(kit::kit_section(), kit, "", missing);
  add_list(out, "Missing", missing, "Nothing: norma has every value that it asks of a kit.");
  add_list(out, "Due", due_lines(kit, on, in), "Nothing is due.");
  return out;
}

} // namespace norma::emit
