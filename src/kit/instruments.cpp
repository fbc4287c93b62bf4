// Retractors, mirrors, distance guides and frames of a kit.
#include <tuple>

#include "kit/due.hpp"
#include "kit/fields.hpp"
#include "kit/sections.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {

template <> struct Choices<Material> {
  static constexpr Choice<Material> rows[] = {{"metal", Material::metal, "metal"},
                                              {"plastic", Material::plastic, "plastic"}};
};
template <> struct Choices<Finish> {
  static constexpr Choice<Finish> rows[] = {{"polished", Finish::polished, "polished"},
                                            {"frosted", Finish::frosted, "frosted"},
                                            {"clear", Finish::clear, "clear"}};
};
template <> struct Choices<RetractorEnd> {
  static constexpr Choice<RetractorEnd> rows[] = {{"small", RetractorEnd::small, "small"},
                                                  {"large", RetractorEnd::large, "large"}};
};
template <> struct Choices<RetractorSides> {
  static constexpr Choice<RetractorSides> rows[] = {
      {"one", RetractorSides::one, ""}, {"both", RetractorSides::both, "one piece for both sides"}};
};
template <> struct Choices<RetractorHeld> {
  static constexpr Choice<RetractorHeld> rows[] = {
      {"by hand", RetractorHeld::by_hand, "held by hand"},
      {"by itself", RetractorHeld::by_itself, "holds itself"}};
};
template <> struct Choices<MirrorKind> {
  static constexpr Choice<MirrorKind> rows[] = {{"occlusal", MirrorKind::occlusal, "occlusal"},
                                                {"buccal", MirrorKind::buccal, "buccal"},
                                                {"lingual", MirrorKind::lingual, "lingual"},
                                                {"disc", MirrorKind::disc, "disc"}};
};
template <> struct Choices<MirrorOutline> {
  static constexpr Choice<MirrorOutline> rows[] = {
      {"rectangle", MirrorOutline::rectangle, "rectangle"},
      {"rounded", MirrorOutline::rounded, "rounded"},
      {"trapezoid", MirrorOutline::trapezoid, "trapezoid"},
      {"disc", MirrorOutline::disc, "disc"},
      {"two ends", MirrorOutline::two_ends, "two ends"}};
};
template <> struct Choices<MirrorSurface> {
  static constexpr Choice<MirrorSurface> rows[] = {
      {"front", MirrorSurface::front, "silver on the front"},
      {"rear", MirrorSurface::rear, "silver behind the glass"}};
};
template <> struct Choices<Packed> {
  static constexpr Choice<Packed> rows[] = {
      {"alone", Packed::alone, "packed alone"},
      {"with instruments", Packed::with_instruments, "packed with other instruments"}};
};
template <> struct Choices<LossBy> {
  static constexpr Choice<LossBy> rows[] = {{"grey card", LossBy::grey_card, "grey card"},
                                            {"reflectance", LossBy::reflectance, "reflectance"}};
};

namespace {

/// Pairs of mean values of the card, 0 to 255: direct, in the mirror.
void read_grey_card(Reader& r, const Yaml& y, const Form& form, Mirror& t) {
  const auto refuse = [&](const Yaml& at) {
    r.wrong(at, "pairs are wanted, direct first: `[[118, 90], [119, 91]]`");
    t.grey_card = Sourced<std::vector<physics::GreyPair>>::broken(y.span);
  };
  if (y.kind != Yaml::Kind::list || y.items.empty() || y.items.size() > Form::most_pairs)
    return refuse(y);
  std::vector<physics::GreyPair> pairs;
  for (const Yaml& item : y.items) {
    if (item.kind != Yaml::Kind::list || item.items.size() != 2) return refuse(item);
    const auto direct = r.number(item.items[0], form.least, form.most);
    const auto mirror = r.number(item.items[1], form.least, form.most);
    if (!direct.known() || !mirror.known()) {
      t.grey_card = Sourced<std::vector<physics::GreyPair>>::broken(y.span);
      return;
    }
    pairs.push_back({direct.get() / form.most, mirror.get() / form.most});
  }
  t.grey_card = {std::move(pairs), y.span};
}

void read_loss(Reader& r, const Yaml& y, const Form& form, Mirror& t) {
  std::tie(t.loss, t.loss_spread) = r.stops_spread(y, form.most * stop);
}

std::string loss_in_words(const Mirror& t) {
  if (!t.loss.known()) return "";
  const std::string spread = fields::text_of_known(t.loss_spread);
  return text_of(t.loss.get()) + (spread.empty() ? "" : ", give or take " + spread);
}

std::string grey_card_in_words(const Mirror& t) {
  if (!t.grey_card.known()) return "";
  const physics::GreyCardLoss loss = physics::loss_by_grey_card(t.grey_card.get());
  return fmt::format("{} by {} of {} pairs of grey cards", physics::to_text(loss.mean), loss.used,
                     t.grey_card->size());
}

std::string narrow_end_in_words(const Mirror& t) {
  if (!t.narrow_end.known()) return "";
  const bool two_ends = t.outline.known() && t.outline.get() == MirrorOutline::two_ends;
  return (two_ends ? "small end " : "narrow end ") + text_of(t.narrow_end.get());
}

bool has_length(const Mirror& t) {
  return !t.outline.known() || t.outline.get() != MirrorOutline::disc;
}
bool has_no_other_loss(const Mirror& t) { return t.grey_card.absent() && t.reflectance.absent(); }
bool has_measured_loss(const Mirror& t) { return !t.loss.absent() || !t.grey_card.absent(); }
bool wears_by_the_month(const Retractor& t) {
  const auto frosting = frosting_of(t, {}); // the day is of no matter
  return frosting && !frosting->cycles;
}

constexpr Length least_size = 1.0 * mm;
constexpr Length most_size = 500.0 * mm;

constexpr Key<Retractor> retractor_table[] = {
    {"name", plain_text<&Retractor::name>(), required, "what the clinic calls it", said_apart},
    {"material", choice<&Retractor::material>(), not_missed, "what it is made of",
     says("{}").joined(" ").behind("finish")},
    {"finish", choice<&Retractor::finish>(), missed("finish of {}", "whether it glares"),
     "how its surface is finished", says("{}")},
    {"ends", choices<&Retractor::ends>(), not_missed, "the ends it has", says("{} end")},
    {"sides", choice<&Retractor::sides>(), not_missed,
     "whether one piece holds one side of the mouth, or both", says("{}")},
    {"held", choice<&Retractor::held>(), not_missed,
     "whether a hand has to hold it, or it stays by itself", says("{}")},
    {"pieces", whole<&Retractor::pieces>(1, 100), not_missed, "how many the chair has",
     says("{} of them")},
    {"frosted on", date<&Retractor::frosted_on>(),
     missed("day on which {} was frosted", "whether the frosting holds").where(wears_by_the_month),
     "day of the last blasting", says("frosted on {}")},
    {"cycles since frosted", whole<&Retractor::cycles_since_frosted>(0, 100000), not_missed,
     "sterilising cycles since then, where they are counted", says("{} cycles since")},
    {"frosting lasts", whole<&Retractor::frosting_lasts_cycles>(1, 100000), not_missed,
     "sterilising cycles after which it is blasted anew", says("lasts {} cycles")},
    {"hook radius", length<&Retractor::hook_radius>(1.0 * mm, 30.0 * mm), not_missed,
     "radius of the blade around the corner of the mouth, seen from above",
     says("hook of {} radius")},
    {"blade height", length<&Retractor::blade_height>(2.0 * mm, 80.0 * mm), not_missed,
     "height of the blade, from its upper to its lower end", says("blade {} high")},
    {"blade bend", angle<&Retractor::blade_bend>(0, 80), not_missed,
     "by how much its ends are bent back", says("its ends bent back by {}")},
};

constexpr Key<Mirror> mirror_table[] = {
    {"name", plain_text<&Mirror::name>(), required, "what the clinic calls it", said_apart},
    {"kind", choice<&Mirror::kind>(), required, "occlusal, buccal, lingual or disc", says("{}")},
    {"outline", choice<&Mirror::outline>(), not_missed, "the shape of its silvered part",
     says("{}")},
    {"width", length<&Mirror::width>(least_size, most_size), missed("width of {}", "what it shows"),
     "width at its wide end; of a disc its diameter", says("{} wide")},
    {"narrow end", length<&Mirror::narrow_end>(least_size, most_size).told(narrow_end_in_words),
     not_missed, "width at the narrow end of a trapezoid, or of the smaller of two ends",
     says("{}")},
    {"corner radius", length<&Mirror::corner>(0.0 * mm, most_size), not_missed,
     "radius of the corners of a rounded mirror, or of one of two ends",
     says("corners of {} radius")},
    {"length", length<&Mirror::length>(least_size, most_size),
     missed("length of {}", "what it shows").where(has_length), "length of the silvered part",
     says("{} long")},
    {"surface", choice<&Mirror::surface>(),
     missed("surface of {}", "whether it gives a second image"),
     "where the silver lies: front, where a pencil's tip meets its image; rear, where a gap stands "
     "between them",
     says("{}")},
    {"glass", length<&Mirror::glass>(0.1 * mm, 20.0 * mm), not_missed, "thickness of the glass",
     says("glass {}")},
    {"glass index", number<RefractiveIndex, &Mirror::glass_index>(1.2, 2.5), not_missed,
     "refractive index of the glass", says("of refractive index {}").joined(" ")},
    {"loss",
     Field<Mirror>(stops<&Mirror::loss>().form, read_loss, loss_in_words,
                   fields::absent<&Mirror::loss>, nullptr),
     missed("loss of {}, by grey card", "what it costs in light").where(has_no_other_loss),
     "stops the picture loses in it, by a grey card", says("takes {}")},
    {"grey card",
     Field<Mirror>(Form::range(Form::Value::number, 0, 255).as(Form::Shape::pairs), read_grey_card,
                   grey_card_in_words, fields::absent<&Mirror::grey_card>, nullptr),
     not_missed,
     "pairs of the card's mean value, 0 to 255, direct and in the mirror: `[[118, 90], [119, "
     "91]]`",
     says("takes {}")},
    {"loss found by", choice<&Mirror::loss_by>(), not_missed, "how the loss was found",
     says("found by {}")},
    {"reflectance", percent<&Mirror::reflectance>(), not_missed,
     "share of the light that comes back in one pass, by the maker's sheet",
     says("reflects {} in one pass")},
    {"measured", date<&Mirror::measured>(),
     missed("day on which the loss of {} was measured", "whether it still holds")
         .where(has_measured_loss),
     "day on which the loss was measured", says("measured on {}")},
    {"packed", choice<&Mirror::packed>(), not_missed, "how it goes through the autoclave",
     says("{}")},
};

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

constexpr Key<Guide> guide_table[] = {
    {"name", plain_text<&Guide::name>(), required, "what the clinic calls it", said_apart},
    {"keeps", length<&Guide::keeps>(1.0 * mm, 2000.0 * mm),
     missed("distance that {} keeps", "whether it fits the lens"),
     "how far it keeps the front of the lens from the teeth",
     says("keeps the lens {} from the teeth")},
};
constexpr Section<Guide> guide_block{"a guide", guide_table, nullptr};

constexpr Key<Frame> frame_table[] = {
    {"name", plain_text<&Frame::name>(), required, "what the clinic calls it", said_apart},
    {"size", size<&Frame::size>(), not_missed, "width and height of its opening", says("{}")},
};
constexpr Section<Frame> frame_block{"a frame", frame_table, nullptr};

constexpr Section<Retractor> retractor_block{"a retractor", retractor_table, check_retractor};
constexpr Section<Mirror> mirror_block{"a mirror", mirror_table, check_mirror};

} // namespace

const Section<Retractor>& retractor_section() { return retractor_block; }
const Section<Mirror>& mirror_section() { return mirror_block; }
const Section<Guide>& guide_section() { return guide_block; }
const Section<Frame>& frame_section() { return frame_block; }

} // namespace norma::kit
