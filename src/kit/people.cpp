// Hands, mouths and teeth of a kit.
#include "kit/fields.hpp"
#include "kit/sections.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {
namespace {

constexpr Key<Kit> people_table[] = {
    {"assistant hands", whole<&Kit::assistant_hands>(0, 4), not_missed,
     "hands of the assistant that can hold something; 0 where there is none",
     says("hands of the assistant: {}")},
    {"patient hands", whole<&Kit::patient_hands>(0, 2), not_missed,
     "hands of the patient that can hold something", says("hands of the patient: {}")},
};
constexpr Section<Kit> people_block{"people", people_table, nullptr};

/// A firmer pull does not hold the corner farther in.
void check_mouths(Reader& r, const Mouths& m) {
  const auto hold = [&](const Sourced<Length>& firmer, const Sourced<Length>& lighter) {
    if (!firmer.known() || !lighter.known() || firmer.get() >= lighter.get()) return;
    r.contradiction(firmer.span(), "corner of the mouth",
                    fmt::format("a lighter pull holds it {} out, this one {}",
                                physics::to_text(lighter.get()), physics::to_text(firmer.get())));
  };
  hold(m.firm.aside, m.light.aside);
  hold(m.firm.aside, m.even.aside);
  hold(m.firm.back, m.light.back);
  hold(m.firm.back, m.even.back);
}

/// Both of its numbers in one part: told at the first of them that is known.
template <auto Corner> std::string corner_in_words(const Mouths& t) {
  const Mouths::Corner& c = t.*Corner;
  std::string all = c.aside.known() ? text_of(c.aside.get()) + " from the midline" : "";
  if (c.back.known())
    all += (all.empty() ? "" : ", ") + text_of(c.back.get()) + " behind the incisors";
  return all;
}
template <auto Corner> std::string back_in_words(const Mouths& t) {
  return (t.*Corner).aside.known() ? "" : corner_in_words<Corner>(t);
}

template <auto Corner> constexpr Field<Mouths> aside() {
  return length<Corner, &Mouths::Corner::aside>(10.0 * mm, 80.0 * mm).told(corner_in_words<Corner>);
}
template <auto Corner> constexpr Field<Mouths> back(Length most) {
  return length<Corner, &Mouths::Corner::back>(0.0 * mm, most).told(back_in_words<Corner>);
}

constexpr Key<Mouths> mouth_table[] = {
    {"light pull aside", aside<&Mouths::light>(), not_missed,
     "corner of the mouth from the midline, light pull", says("light pull: {}")},
    {"light pull back", back<&Mouths::light>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, light pull", says("light pull: {}")},
    {"even pull aside", aside<&Mouths::even>(), not_missed,
     "corner of the mouth from the midline, even pull", says("even pull: {}")},
    {"even pull back", back<&Mouths::even>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, even pull", says("even pull: {}")},
    {"firm pull aside", aside<&Mouths::firm>(), not_missed,
     "corner of the mouth from the midline, firm pull", says("firm pull: {}")},
    {"firm pull back", back<&Mouths::firm>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, firm pull", says("firm pull: {}")},
    {"by mirror aside", aside<&Mouths::by_mirror>(), not_missed,
     "corner of the mouth from the midline, as far as a mirror in the cheek may hold it",
     says("by a mirror in the cheek: {}")},
    {"by mirror back", back<&Mouths::by_mirror>(50.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, as far as a mirror in the cheek may hold it",
     says("by a mirror in the cheek: {}")},
    {"lips clear", length<&Mouths::lips_clear>(0.0 * mm, 30.0 * mm), not_missed,
     "lips beyond the necks of the front teeth", says("lips clear of the necks by {}")},
    {"opened wide", length<&Mouths::opened_wide>(10.0 * mm, 80.0 * mm), not_missed,
     "between the incisors' edges, mouth opened wide", says("opened wide: {}")},
};
constexpr Section<Mouths> mouth_block{"mouths", mouth_table, check_mouths};

constexpr Length least_crown = 2.0 * mm;
constexpr Length greatest_crown = 20.0 * mm;
constexpr Key<ToothSizes> tooth_table[] = {
    {"tooth", tooth<&ToothSizes::tooth>(), required,
     "by its number in ISO 3950, such as `12`; it stands for `22`, too", said_apart},
    {"width", length<&ToothSizes::width>(least_crown, greatest_crown), not_missed,
     "width of the crown, along the arch", says("{} wide")},
    {"height", length<&ToothSizes::height>(least_crown, greatest_crown), not_missed,
     "height of the crown", says("{} high")},
    {"depth", length<&ToothSizes::depth>(least_crown, greatest_crown), not_missed,
     "depth of the crown, from face to tongue side", says("{} deep")},
};
constexpr Section<ToothSizes> tooth_block{"a tooth", tooth_table, nullptr};

} // namespace

const Section<Kit>& people_section() { return people_block; }
const Section<Mouths>& mouth_section() { return mouth_block; }
const Section<ToothSizes>& tooth_section() { return tooth_block; }

} // namespace norma::kit
