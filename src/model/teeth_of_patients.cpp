#include "model/teeth_of_patients.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "physics/anatomy/dentition.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;

/// Of the permanent teeth before the molars each has a milk tooth in its place.
void report_permanent(const Sourced<Faces>& faces, const std::vector<physics::Tooth>& odd,
                      GroupTeeth teeth, diag::Findings& findings) {
  const bool mixed = teeth == GroupTeeth::mixed_teeth;
  const auto any_of = [&](auto which) { return std::any_of(odd.begin(), odd.end(), which); };
  std::vector<physics::Tooth> milk;
  for (const physics::Tooth t : odd) {
    if (const auto before = t.predecessor()) milk.push_back(*before);
  }
  auto& d = findings.add(
      diag::make(catalogue::permanent_tooth, faces.span(), words::teeth_text(odd), term_of(teeth)));
  if (mixed) {
    d.with_note("norma plans for about nine years, when they are not there yet; that differs from "
                "child to child");
    d.with_help("write `whichever teeth are there`: what stands there must show");
  } else if (any_of([](physics::Tooth t) { return t.position() == 6; })) {
    d.with_note("the first permanent molars come at about six years: keep it where that is meant");
  }
  if (!milk.empty()) d.with_help("name the milk teeth in their place, " + words::teeth_text(milk));
  const bool later =
      any_of([](physics::Tooth t) { return physics::stands_in(t, physics::Dentition::mixed); });
  if (!mixed && later) d.with_help("or plan for `children, mixed teeth`");
}

} // namespace

void check_teeth_of_patients(const Protocol& protocol, diag::Findings& findings) {
  if (!protocol.group.known()) return;
  const Group& group = protocol.group.get();
  const bool adults = !group.children;
  const bool mixed = group.teeth == GroupTeeth::mixed_teeth;
  if (!adults && !group.teeth) return; // which teeth they have is asked for elsewhere
  const auto is_odd = [&](const View& view, physics::Tooth t) {
    if (adults) return t.is_primary();
    if (t.is_primary()) return false;
    return !mixed ||
           (!view.every_tooth_present && !physics::stands_in(t, physics::Dentition::mixed));
  };
  for (const View& view : protocol.views) {
    std::vector<physics::Tooth> told;
    for (const Sourced<Faces>* faces : {&view.must_show, &view.must_be_sharp, &view.or_else_show}) {
      if (!faces->known()) continue;
      std::vector<physics::Tooth> odd;
      for (const NamedFace& f : faces->get()) {
        const auto in = [&](const auto& all) {
          return std::find(all.begin(), all.end(), f.tooth) != all.end();
        };
        if (is_odd(view, f.tooth) && !in(told) && !in(odd)) odd.push_back(f.tooth);
      }
      if (odd.empty()) continue;
      told.insert(told.end(), odd.begin(), odd.end());
      if (adults) {
        findings.add(diag::make(catalogue::milk_tooth, faces->span(), words::teeth_text(odd)))
            .with_note("milk teeth do persist in adults: keep it where that is meant");
      } else {
        report_permanent(*faces, odd, *group.teeth, findings);
      }
    }
  }
}

} // namespace norma::model
