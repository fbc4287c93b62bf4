#include "emit/kit_words.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "physics/quantity_text.hpp"
#include "plan/limits.hpp"

namespace norma::emit {
namespace {

namespace defaults = physics::defaults;
using text::Sourced;

class KitWords {
 public:
  KitWords(const kit::Kit& kit, words::Date on) : kit_(kit), on_(on) {}

  Document build() {
    const std::string name = kit_.name.value_or("a kit without a name");
    add(BlockKind::title,
        kit_.title.known() ? fmt::format("{} ({})", kit_.title.get(), name) : name);
    camera();
    lens();
    lamps();
    retractors();
    mirrors();
    attachments();
    people();
    mouths();
    own_values("Limits of this clinic's own", kit_.limits);
    own_values("Sizes of this clinic's patients", kit_.anatomy);
    teeth();
    closing("Missing", missing_, "Nothing: norma has every value that it asks of a kit.");
    closing("Due", due_, "Nothing is due.");
    return std::move(out_);
  }

 private:
  void add(BlockKind kind, std::string text) { out_.push_back({kind, std::move(text)}); }
  void item(std::string text) { add(BlockKind::bullet, std::move(text)); }

  /// Parts that are known, parted by semicolons.
  template <class T>
  void part(std::string& line, const Sourced<T>& value, std::string_view before,
            std::string_view after = {}) {
    if (!value.known()) return;
    line += fmt::format("{}{}{}{}", line.empty() ? "" : "; ", before, text_of(value.get()), after);
  }
  static std::string text_of(int n) { return std::to_string(n); }
  static std::string text_of(double n) { return fmt::format("{}", n); }
  static std::string text_of(const std::string& s) { return s; }
  static std::string text_of(PupilRatio p) { return fmt::format("{}", p.value()); }
  static std::string text_of(RefractiveIndex n) { return fmt::format("{}", n.value()); }
  static std::string text_of(Share s) { return physics::fixed(100 * s.value(), 1) + " %"; }
  static std::string text_of(words::Date d) { return words::to_text(d); }
  template <class T> static std::string text_of(const T& quantity) {
    return physics::to_text(quantity);
  }

  /// What nobody has measured, and what norma cannot say without it.
  template <class T> void want(const Sourced<T>& value, std::string what, std::string_view why) {
    if (value.absent()) missing_.push_back(fmt::format("{}: {}", what, why));
  }

  /// `12 months` from `day` on it has to be looked at again.
  void due(const Sourced<words::Date>& day, const physics::Default& limit, std::string_view what) {
    if (!day.known()) return;
    const int months = words::months_between(day.get(), on_);
    const int most = static_cast<int>(plan::limit_of(&kit_, limit).value);
    if (months >= most) {
      due_.push_back(fmt::format("{}: {} months ago, on {}; after {} months it is due", what,
                                 months, words::to_text(day.get()), most));
    }
  }

  void camera() {
    add(BlockKind::heading, "Camera");
    std::string line;
    part(line, kit_.sensor, "sensor ");
    if (kit_.least_iso.known() && kit_.greatest_iso.known()) {
      const std::string low = physics::to_text(kit_.least_iso.get());
      const std::string high = physics::to_text(kit_.greatest_iso.get());
      line += (line.empty() ? "" : "; ") + ("ISO " + low) + (low == high ? "" : " to " + high);
    }
    if (kit_.pictures.known() && kit_.pictures.get() == kit::Pictures::prints)
      line += "; it makes prints";
    part(line, kit_.processing, "a print takes ");
    if (!line.empty()) item(line);
    want(kit_.sensor, "sensor", "which field a ratio gives");
    want(kit_.room_light, "room light", "whether the room's light shows in the pictures");
  }

  void lens() {
    add(BlockKind::heading, "Lens");
    if (!kit_.lens) {
      missing_.push_back("lens: ratios, distances, apertures and sharpness");
      return;
    }
    const kit::Lens& l = *kit_.lens;
    std::string line = l.name.value_or("");
    part(line, l.focal_length, "focal length ");
    part(line, l.pupil_ratio, "pupil ratio ");
    if (l.widest.known() && l.smallest.known()) {
      const std::string widest = physics::to_text(l.widest.get());
      const std::string smallest = physics::to_text(l.smallest.get());
      line += "; " + (widest == smallest ? widest : widest + " to " + smallest);
    }
    if (l.least_ratio.known() && l.greatest_ratio.known()) {
      const std::string least = physics::to_text(l.least_ratio.get());
      const std::string greatest = physics::to_text(l.greatest_ratio.get());
      line += "; ratio " + (least == greatest ? least : least + " to " + greatest);
    }
    item(line);
    for (const kit::DistanceRow& row : l.working_distance) {
      item(fmt::format("at {} the front of the lens stands {} from the teeth",
                       physics::to_text(row.ratio), physics::to_text(row.distance)));
    }
    want(l.pupil_ratio, "pupil ratio of the lens", "taken as 1 without it");
    want(l.smallest, "apertures of the lens", "which ones can be set");
    want(l.greatest_ratio, "ratios of the lens", "whether it reaches a ratio");
    if (l.working_distance.empty())
      missing_.push_back("working distances of the lens: how far the camera stands");
  }

  static std::string_view kind_of(kit::LampKind kind) {
    switch (kind) {
    case kit::LampKind::ring: return "ring around the lens";
    case kit::LampKind::point: return "point light beside the lens";
    case kit::LampKind::clip_on: return "clip-on light beside the lens";
    case kit::LampKind::built_in: return "built into the lens";
    }
    return "";
  }

  void lamps() {
    add(BlockKind::heading, "Lamps");
    if (kit_.lamps.empty()) missing_.push_back("a lamp: how the teeth are lit");
    for (const kit::Lamp& l : kit_.lamps) {
      const std::string name = l.name.value_or("a lamp");
      std::string line = name;
      if (l.kind.known()) line += fmt::format(": {}", kind_of(l.kind.get()));
      part(line, l.radius, "radius ");
      part(line, l.offset, "", " from the axis");
      if (l.moves.known()) {
        line += l.moves.get() == kit::LampMoves::by_hand ? "; moves by hand"
                                                         : "; does not move on the camera";
      }
      if (l.control.known()) {
        line += l.control.get() == kit::LampControl::automatic ? "; meters the light itself"
                                                               : "; set by hand";
      }
      const bool steady = l.light.known() && l.light.get() == kit::LampLight::steady;
      if (steady) line += "; steady light";
      part(line, l.stands_out, "stands out by ");
      if (l.guide_number.known())
        line += fmt::format("; guide number {} m", l.guide_number.get().in(metre));
      part(line, l.least_power, "down to ", " of its power");
      part(line, l.shortest_shutter, "shutter ", " or longer");
      part(line, l.flash_duration, "flash of ");
      item(line);
      if (l.reference) {
        const kit::ReferenceShot& r = *l.reference;
        std::string shot;
        part(shot, r.aperture, "");
        part(shot, r.iso, "ISO ");
        part(shot, r.ratio, "");
        part(shot, r.distance, "", " from the card");
        part(shot, r.power, "power ");
        part(shot, r.date, "taken on ");
        item(fmt::format("reference shot with {}: {}", name, shot));
        due(r.date, defaults::shot_good_for, "reference shot of " + name);
        want(r.date, "day of the reference shot of " + name, "whether it still holds");
      } else {
        missing_.push_back(
            fmt::format("reference shot of {}: which flash power is right close up", name));
      }
      if (!steady) {
        want(l.shortest_shutter, "shortest shutter of " + name,
             "whether the shutter is open all over for the flash");
        want(l.flash_duration, "flash duration of " + name, "whether movement blurs the picture");
      }
      if (l.kind.known() && l.kind.get() == kit::LampKind::ring)
        want(l.radius, "radius of " + name, "shadows and glare");
      if (l.kind.known() && l.kind.get() == kit::LampKind::point)
        want(l.offset, "offset of " + name, "shadows and glare");
    }
  }

  void retractors() {
    add(BlockKind::heading, "Retractors");
    if (kit_.retractors.empty()) missing_.push_back("retractors: who holds the cheeks");
    for (const kit::Retractor& r : kit_.retractors) {
      const std::string name = r.name.value_or("a retractor");
      std::string line = name;
      if (r.finish.known()) {
        line += r.finish.get() == kit::Finish::polished  ? "; polished"
                : r.finish.get() == kit::Finish::frosted ? "; frosted"
                                                         : "; clear";
      }
      if (r.material.known())
        line += r.material.get() == kit::Material::metal ? " metal" : " plastic";
      if (!r.ends.empty()) {
        std::string ends;
        for (const kit::RetractorEnd end : r.ends)
          ends += std::string(ends.empty() ? "" : " and ") +
                  (end == kit::RetractorEnd::small ? "small" : "large");
        line += fmt::format("; {} end", ends);
      }
      part(line, r.pieces, "", " of them");
      part(line, r.frosted_on, "frosted on ");
      part(line, r.cycles_since_frosted, "", " cycles since");
      part(line, r.frosting_lasts_cycles, "lasts ", " cycles");
      part(line, r.hook_radius, "hook of ", " radius");
      part(line, r.blade_height, "blade ", " high");
      part(line, r.blade_bend, "its ends bent back by ");
      item(line);
      want(r.finish, "finish of " + name, "whether it glares");
      const bool frosted = r.finish.known() && r.finish.get() == kit::Finish::frosted &&
                           r.material.known() && r.material.get() == kit::Material::metal;
      if (!frosted) continue;
      if (r.cycles_since_frosted.known() && r.frosting_lasts_cycles.known()) {
        if (r.cycles_since_frosted.get() >= r.frosting_lasts_cycles.get()) {
          due_.push_back(fmt::format("frosting of {}: {} cycles of {}", name,
                                     r.cycles_since_frosted.get(), r.frosting_lasts_cycles.get()));
        }
      } else {
        want(r.frosted_on, "day on which " + name + " was frosted", "whether the frosting holds");
        due(r.frosted_on, defaults::frosting_good_for, "frosting of " + name);
      }
    }
  }

  void mirrors() {
    add(BlockKind::heading, "Mirrors");
    if (kit_.mirrors.empty()) missing_.push_back("mirrors: views that are taken in one");
    for (const kit::Mirror& m : kit_.mirrors) {
      const std::string name = m.name.value_or("a mirror");
      std::string line = name;
      if (m.kind.known()) line += fmt::format("; {}", kit::to_text(m.kind.get()));
      if (m.outline.known()) line += fmt::format("; {}", kit::to_text(m.outline.get()));
      part(line, m.width, "", " wide");
      part(line, m.narrow_end,
           m.outline.known() && m.outline.get() == kit::MirrorOutline::two_ends ? "small end "
                                                                                : "narrow end ");
      part(line, m.corner, "corners of ", " radius");
      part(line, m.length, "", " long");
      if (m.surface.known()) {
        line += m.surface.get() == kit::MirrorSurface::front ? "; silver on the front"
                                                             : "; silver behind the glass";
      }
      part(line, m.glass, "glass ");
      if (m.loss.known()) {
        line += fmt::format("; takes {}", physics::to_text(m.loss.get()));
        if (m.loss_spread.known())
          line += fmt::format(", give or take {}", physics::to_text(m.loss_spread.get()));
      }
      if (m.grey_card.known()) {
        const physics::GreyCardLoss loss = physics::loss_by_grey_card(m.grey_card.get());
        line += fmt::format("; takes {} by {} of {} pairs of grey cards",
                            physics::to_text(loss.mean), loss.used, m.grey_card->size());
      }
      part(line, m.reflectance, "reflects ", " in one pass");
      part(line, m.measured, "measured on ");
      if (m.packed.known()) {
        line += m.packed.get() == kit::Packed::alone ? "; packed alone"
                                                     : "; packed with other instruments";
      }
      item(line);
      want(m.width, "width of " + name, "what it shows");
      if (!m.outline.known() || m.outline.get() != kit::MirrorOutline::disc)
        want(m.length, "length of " + name, "what it shows");
      want(m.surface, "surface of " + name, "whether it gives a second image");
      if (m.loss.absent() && m.grey_card.absent())
        want(m.reflectance, "loss of " + name + ", by grey card", "what it costs in light");
      else
        want(m.measured, "day on which the loss of " + name + " was measured",
             "whether it still holds");
      due(m.measured, defaults::loss_good_for, "loss of " + name);
    }
  }

  void attachments() {
    if (!kit_.guides && !kit_.frames) return;
    add(BlockKind::heading, "Guides and frames");
    for (const kit::Guide& g : kit_.guides.value_or(std::vector<kit::Guide>{})) {
      std::string line = g.name.value_or("a guide");
      part(line, g.keeps, "keeps the lens ", " from the teeth");
      item(line);
      want(g.keeps, "distance that " + g.name.value_or("a guide") + " keeps",
           "whether it fits the lens");
    }
    for (const kit::Frame& f : kit_.frames.value_or(std::vector<kit::Frame>{})) {
      std::string line = f.name.value_or("a frame");
      part(line, f.size, "");
      item(line);
    }
  }

  void people() {
    if (kit_.assistant_hands.absent() && kit_.patient_hands.absent()) return;
    add(BlockKind::heading, "People");
    std::string line;
    part(line, kit_.assistant_hands, "hands of the assistant: ");
    part(line, kit_.patient_hands, "hands of the patient: ");
    item(line);
  }

  void mouths() {
    std::string line;
    const auto corner = [&](const kit::Mouths::Corner& c, std::string_view held) {
      if (!c.aside.known() || !c.back.known()) return;
      line +=
          fmt::format("{}{}: {} from the midline, {} behind the incisors", line.empty() ? "" : "; ",
                      held, physics::to_text(c.aside.get()), physics::to_text(c.back.get()));
    };
    corner(kit_.mouths.light, "light pull");
    corner(kit_.mouths.even, "even pull");
    corner(kit_.mouths.firm, "firm pull");
    corner(kit_.mouths.by_mirror, "by a mirror in the cheek");
    part(line, kit_.mouths.lips_clear, "lips clear of the necks by ");
    part(line, kit_.mouths.opened_wide, "opened wide: ");
    if (line.empty()) {
      missing_.push_back("mouths: where the retractors hold the corners; assumed without it");
      return;
    }
    add(BlockKind::heading, "Mouths, as the retractors hold them");
    item(line);
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
      std::string line;
      part(line, t.width, "", " wide");
      part(line, t.height, "", " high");
      part(line, t.depth, "", " deep");
      item(fmt::format("{} and {}: {}", t.tooth->iso(), t.tooth->other_side().iso(),
                       line.empty() ? "no size is given" : line));
    }
  }

  void closing(std::string heading, const std::vector<std::string>& lines, std::string none) {
    add(BlockKind::heading, std::move(heading));
    if (lines.empty()) add(BlockKind::paragraph, std::move(none));
    for (const std::string& line : lines)
      item(line);
  }

  const kit::Kit& kit_;
  words::Date on_;
  Document out_;
  std::vector<std::string> missing_;
  std::vector<std::string> due_;
};

} // namespace

Document kit_words(const kit::Kit& kit, words::Date on) { return KitWords(kit, on).build(); }

} // namespace norma::emit
