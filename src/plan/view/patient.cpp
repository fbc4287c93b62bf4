// Whose teeth are placed: the mean of the group, with the sizes that a clinic has put in the place
// of the published ones.
#include <fmt/core.h>

#include <algorithm>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// The kit's own sizes that count for these patients.
List own_sizes(const kit::Kit& kit, physics::Dentition dentition) {
  List own;
  for (const kit::OwnValue& v : kit.anatomy) {
    if (!v.value.known() || !physics::counts_for(*v.which, dentition)) continue;
    // The number as the kit writes it, whatever its step.
    const std::string number = fmt::format("{}", v.value.get());
    own.items.emplace_back(v.which->unit.empty()
                               ? phrase::own_count(v.which->name, number)
                               : phrase::own_size(v.which->name, number, v.which->unit));
  }
  for (const kit::ToothSizes& t : kit.teeth) {
    if (!t.tooth.known() || !physics::stands_in(t.tooth.get(), dentition)) continue;
    for (const auto& [row, size] :
         {std::pair{&phrase::own_width, &t.width}, std::pair{&phrase::own_height, &t.height},
          std::pair{&phrase::own_depth, &t.depth}}) {
      if (size->known())
        own.items.emplace_back((*row)(t.tooth.get(), t.tooth->other_side(), size->get()));
    }
  }
  return own;
}

/// The kit's own value for a size, or norma's.
Given size_of(const Job& job, const physics::Default& row) {
  if (!job.has_kit()) return row;
  const auto& own = job.kit()->anatomy;
  const auto found = std::find_if(own.begin(), own.end(), [&](const kit::OwnValue& v) {
    return v.which == &row && v.value.known();
  });
  return {row, found == own.end() ? std::nullopt : std::optional(found->value.get())};
}

} // namespace

void plan_patient(Job& job) {
  const model::View& view = job.view;
  const auto named = [](const text::Sourced<model::Faces>& faces) {
    return faces.known() && !faces->empty();
  };
  if (view.kind == model::ViewKind::face || !job.no_teeth.empty()) return;
  if (!named(view.must_show) && !named(view.must_be_sharp) && !view.speaks_of_that_tooth()) return;
  const physics::Dentition dentition = job.anatomy_->dentition;
  for (const physics::Default* row : physics::defaults::anatomy) {
    if (physics::counts_for(*row, dentition)) job.facts.take(size_of(job, *row));
  }
  job.facts.note(Status::handbook); // sizes of crowns, but for those that the kit has
  const Said group = term_of(dentition);
  List own = job.has_kit() ? own_sizes(*job.kit(), dentition) : List();
  job.facts.put(fact::patient, own.items.empty()
                                   ? phrase::mean_patient(group)
                                   : phrase::mean_patient_by_kit(group, std::move(own)));
}

} // namespace norma::plan
