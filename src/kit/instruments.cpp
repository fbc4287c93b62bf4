// Retractors and mirrors of a kit.
#include <algorithm>
#include <tuple>

#include "kit/sections.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {
namespace {

/// How a table of names writes a value.
template <class T, std::size_t N>
std::string_view name_in(const std::pair<std::string_view, T> (&names)[N], T value) {
  return std::find_if(std::begin(names), std::end(names),
                      [&](const auto& row) { return row.second == value; })
      ->first;
}

constexpr std::pair<std::string_view, Material> materials[] = {{"metal", Material::metal},
                                                               {"plastic", Material::plastic}};
constexpr std::pair<std::string_view, Finish> finishes[] = {
    {"polished", Finish::polished}, {"frosted", Finish::frosted}, {"clear", Finish::clear}};
constexpr std::pair<std::string_view, RetractorEnd> end_names[] = {{"small", RetractorEnd::small},
                                                                   {"large", RetractorEnd::large}};
constexpr std::pair<std::string_view, MirrorKind> mirror_kinds[] = {
    {"occlusal", MirrorKind::occlusal},
    {"buccal", MirrorKind::buccal},
    {"lingual", MirrorKind::lingual},
    {"disc", MirrorKind::disc}};
constexpr std::pair<std::string_view, MirrorOutline> outlines[] = {
    {"rectangle", MirrorOutline::rectangle},
    {"rounded", MirrorOutline::rounded},
    {"trapezoid", MirrorOutline::trapezoid},
    {"disc", MirrorOutline::disc},
    {"two ends", MirrorOutline::two_ends}};
constexpr std::pair<std::string_view, MirrorSurface> surfaces[] = {{"front", MirrorSurface::front},
                                                                   {"rear", MirrorSurface::rear}};
constexpr std::pair<std::string_view, Packed> packings[] = {
    {"alone", Packed::alone}, {"with instruments", Packed::with_instruments}};
constexpr std::pair<std::string_view, LossBy> loss_ways[] = {{"grey card", LossBy::grey_card},
                                                             {"reflectance", LossBy::reflectance}};

void read_ends(Reader& r, const Yaml& y, Retractor& t) {
  const auto add = [&](const Yaml& one) {
    const auto end = r.choice(one, end_names);
    if (!end.known()) return;
    if (std::find(t.ends.begin(), t.ends.end(), end.get()) != t.ends.end()) {
      r.out_of_range(one, "this end is named twice");
      return;
    }
    t.ends.push_back(end.get());
  };
  if (y.kind == Yaml::Kind::list) {
    for (const Yaml& item : y.items)
      add(item);
  } else {
    add(y);
  }
}

/// Pairs of mean values of the card, 0 to 255: direct, in the mirror.
void read_grey_card(Reader& r, const Yaml& y, Mirror& t) {
  const auto refuse = [&](const Yaml& at) {
    r.wrong(at, "pairs are wanted, direct first: `[[118, 90], [119, 91]]`");
    t.grey_card = Sourced<std::vector<physics::GreyPair>>::broken(y.span);
  };
  constexpr std::size_t most = 100;
  if (y.kind != Yaml::Kind::list || y.items.empty() || y.items.size() > most) return refuse(y);
  std::vector<physics::GreyPair> pairs;
  for (const Yaml& item : y.items) {
    if (item.kind != Yaml::Kind::list || item.items.size() != 2) return refuse(item);
    const auto direct = r.number(item.items[0], 0, 255);
    const auto mirror = r.number(item.items[1], 0, 255);
    if (!direct.known() || !mirror.known()) {
      t.grey_card = Sourced<std::vector<physics::GreyPair>>::broken(y.span);
      return;
    }
    pairs.push_back({direct.get() / 255.0, mirror.get() / 255.0});
  }
  t.grey_card = {std::move(pairs), y.span};
}

constexpr Length least_size = 1.0 * mm;
constexpr Length most_size = 500.0 * mm;

constexpr Key<Retractor> retractor_table[] = {
    {"name", true, [](Reader& r, const Yaml& y, Retractor& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"material", false,
     [](Reader& r, const Yaml& y, Retractor& t) { t.material = r.choice(y, materials); },
     "metal or plastic"},
    {"finish", false,
     [](Reader& r, const Yaml& y, Retractor& t) { t.finish = r.choice(y, finishes); },
     "polished, frosted or clear"},
    {"ends", false, read_ends, "[small, large], or one of them"},
    {"pieces", false, [](Reader& r, const Yaml& y, Retractor& t) { t.pieces = r.whole(y, 1, 100); },
     "how many the chair has"},
    {"frosted on", false, [](Reader& r, const Yaml& y, Retractor& t) { t.frosted_on = r.date(y); },
     "day of the last blasting"},
    {"cycles since frosted", false,
     [](Reader& r, const Yaml& y, Retractor& t) { t.cycles_since_frosted = r.whole(y, 0, 100000); },
     "sterilising cycles since then, where they are counted"},
    {"frosting lasts", false,
     [](Reader& r, const Yaml& y, Retractor& t) {
       t.frosting_lasts_cycles = r.whole(y, 1, 100000);
     },
     "sterilising cycles after which it is blasted anew"},
    {"hook radius", false,
     [](Reader& r, const Yaml& y, Retractor& t) {
       t.hook_radius = r.length(y, 1.0 * mm, 30.0 * mm);
     },
     "of the blade around the corner of the mouth, seen from above"},
    {"blade height", false,
     [](Reader& r, const Yaml& y, Retractor& t) {
       t.blade_height = r.length(y, 2.0 * mm, 80.0 * mm);
     },
     "of the blade, from its upper to its lower end"},
    {"blade bend", false,
     [](Reader& r, const Yaml& y, Retractor& t) {
       t.blade_bend = r.angle(y, Angle{}, 80.0 * degree);
     },
     "by how much its ends are bent back"},
};

constexpr Key<Mirror> mirror_table[] = {
    {"name", true, [](Reader& r, const Yaml& y, Mirror& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"kind", true, [](Reader& r, const Yaml& y, Mirror& t) { t.kind = r.choice(y, mirror_kinds); },
     "occlusal, buccal, lingual or disc"},
    {"outline", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.outline = r.choice(y, outlines); },
     "rectangle, rounded, trapezoid, disc or two ends"},
    {"width", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.width = r.length(y, least_size, most_size); },
     "at its wide end; a disc's diameter"},
    {"narrow end", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.narrow_end = r.length(y, least_size, most_size); },
     "width at the narrow end of a trapezoid, or of the smaller of two ends"},
    {"corner radius", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.corner = r.length(y, 0.0 * mm, most_size); },
     "of a rounded mirror, or one of two ends"},
    {"length", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.length = r.length(y, least_size, most_size); },
     "of the silvered part"},
    {"surface", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.surface = r.choice(y, surfaces); },
     "front: a pencil's tip meets its image; rear: a gap stands between them"},
    {"glass", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.glass = r.length(y, 0.1 * mm, 20.0 * mm); },
     "thickness of the glass"},
    {"glass index", false,
     [](Reader& r, const Yaml& y, Mirror& t) {
       const auto n = r.number(y, 1.2, 2.5);
       t.glass_index = n.known() ? Sourced<RefractiveIndex>(RefractiveIndex{n.get()}, n.span())
                                 : Sourced<RefractiveIndex>::broken(y.span);
     },
     "refractive index of the glass"},
    {"loss", false,
     [](Reader& r, const Yaml& y, Mirror& t) {
       std::tie(t.loss, t.loss_spread) = r.stops_spread(y);
     },
     "stops the picture loses in it, by a grey card"},
    {"grey card", false, read_grey_card,
     "pairs of the card's mean value, 0 to 255, direct and in the mirror: `[[118, 90], [119, "
     "91]]`"},
    {"loss found by", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.loss_by = r.choice(y, loss_ways); },
     "grey card or reflectance"},
    {"reflectance", false,
     [](Reader& r, const Yaml& y, Mirror& t) { t.reflectance = r.percent(y); },
     "of one pass, by the maker's sheet"},
    {"measured", false, [](Reader& r, const Yaml& y, Mirror& t) { t.measured = r.date(y); },
     "day of the measurement"},
    {"packed", false, [](Reader& r, const Yaml& y, Mirror& t) { t.packed = r.choice(y, packings); },
     "alone, or with instruments: how it goes through the autoclave"},
};

} // namespace

std::span<const Key<Retractor>> retractor_keys() { return retractor_table; }
std::span<const Key<Mirror>> mirror_keys() { return mirror_table; }

void check_retractor(Reader& reader, const Retractor& retractor) {
  const bool metal = retractor.material.known() && retractor.material.get() == Material::metal;
  if (metal && retractor.finish.known() && retractor.finish.get() == Finish::clear) {
    reader.contradiction(retractor.finish.span(), "clear", "it is of metal");
  }
  const bool other_finish = retractor.finish.known() && retractor.finish.get() != Finish::frosted;
  if (other_finish && !retractor.frosted_on.absent()) {
    reader.contradiction(retractor.frosted_on.span(), "frosted on", "its finish is not `frosted`");
  }
}

void check_mirror(Reader& reader, const Mirror& mirror) {
  const bool disc = mirror.outline.known() && mirror.outline.get() == MirrorOutline::disc;
  if (disc && !mirror.length.absent()) {
    reader.contradiction(mirror.length.span(), "length", "a disc has one size: its `width`");
  }
  if (!mirror.narrow_end.absent() && mirror.outline.known() &&
      mirror.outline.get() != MirrorOutline::trapezoid &&
      mirror.outline.get() != MirrorOutline::two_ends) {
    reader.contradiction(mirror.narrow_end.span(), "narrow end",
                         "only a trapezoid or a mirror of two ends has one");
  } else if (mirror.narrow_end.known() && mirror.width.known() &&
             mirror.width.get() < mirror.narrow_end.get()) {
    reader.contradiction(
        mirror.narrow_end.span(), "narrow end",
        fmt::format("it is wider than the wide end, {}", physics::to_text(mirror.width.get())));
  }
  if (mirror.grey_card.known()) {
    const physics::GreyCardLoss loss = physics::loss_by_grey_card(mirror.grey_card.get());
    if (loss.used > 0 && loss.mean < Stops{} && -loss.mean > 2.0 * loss.standard_error) {
      reader.contradiction(mirror.grey_card.span(), "grey card",
                           "by these pairs the mirror makes the picture brighter; direct stands "
                           "first, then in the mirror");
    }
  }
  const bool rounds = !mirror.outline.known() || mirror.outline.get() == MirrorOutline::rounded ||
                      mirror.outline.get() == MirrorOutline::two_ends;
  if (!mirror.corner.absent() && !rounds) {
    reader.contradiction(mirror.corner.span(), "corner radius",
                         "only a mirror that is `rounded`, or has `two ends`, has one");
  }
  if (!mirror.grey_card.absent() && !mirror.loss.absent()) {
    reader.contradiction(mirror.loss.span(), "loss",
                         "norma works it out of `grey card`: leave one of them out");
  }
  if (mirror.loss.known() && mirror.loss_by.known() &&
      mirror.loss_by.get() == LossBy::reflectance) {
    reader.contradiction(
        mirror.loss_by.span(), "reflectance",
        "write `reflectance: 77 %` in place of `loss`; norma works the loss of the "
        "picture, in and out, out of it");
  }
}

std::string_view to_text(MirrorKind kind) { return name_in(mirror_kinds, kind); }
std::string_view to_text(MirrorOutline outline) { return name_in(outlines, outline); }

} // namespace norma::kit
