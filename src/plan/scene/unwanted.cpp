// What must not show, as far as the model of the mouth has it.
#include "placing/layout.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

using model::Unwanted;

/// Fingers, saliva and the like nobody can foresee: that is said of every plan.
bool foreseen_by_nobody(Unwanted thing) {
  return thing == Unwanted::fingers || thing == Unwanted::saliva || thing == Unwanted::hair ||
         thing == Unwanted::jewellery || thing == Unwanted::name_of_the_patient;
}

/// Can the model tell? Of a mirror's edge it knows no lip that hides it.
bool in_model(Unwanted thing) {
  return thing == Unwanted::lips || thing == Unwanted::cheeks ||
         thing == Unwanted::neighbouring_teeth || thing == Unwanted::opposing_teeth;
}

std::vector<physics::Tooth> both(const std::vector<physics::Tooth>& a,
                                 const std::vector<physics::Tooth>& b) {
  std::vector<physics::Tooth> out;
  std::copy_if(a.begin(), a.end(), std::back_inserter(out),
               [&](physics::Tooth t) { return std::find(b.begin(), b.end(), t) != b.end(); });
  return out;
}

/// The teeth that must show, and those that may in part.
std::vector<physics::Tooth> teeth_wanted(const Job& job, const Setting& setting) {
  std::vector<physics::Tooth> out;
  for (const placing::Wanted& w : setting.wanted)
    out.push_back(w.tooth);
  if (job.view.may_cut.known()) {
    for (const model::NamedFace& f : job.view.may_cut.get())
      out.push_back(f.tooth);
  }
  return out;
}

std::vector<physics::Tooth> opposing(const std::vector<physics::Tooth>& seen,
                                     const std::vector<physics::Tooth>& wanted) {
  const bool upper = std::any_of(wanted.begin(), wanted.end(), [](auto t) { return t.is_upper(); });
  const bool lower =
      std::any_of(wanted.begin(), wanted.end(), [](auto t) { return !t.is_upper(); });
  std::vector<physics::Tooth> out;
  if (upper == lower) return out;
  std::copy_if(seen.begin(), seen.end(), std::back_inserter(out),
               [&](auto t) { return t.is_upper() == lower; });
  return out;
}

} // namespace

void open_unwanted(Job& job, bool judged) {
  if (!job.view.must_not_show.known()) return;
  List open;
  for (const Unwanted thing : job.view.must_not_show.get()) {
    if (!foreseen_by_nobody(thing) && !(judged && in_model(thing)))
      open.items.emplace_back(term_of(thing));
  }
  if (!open.items.empty())
    job.out.open.push_back({question::picture_free(std::move(open)), missing::model_of_the_rest()});
}

void judge_unwanted(Job& job, const Placed& placed) {
  if (!job.view.must_not_show.known()) return;
  const auto& things = job.view.must_not_show.get();
  if (std::none_of(things.begin(), things.end(), in_model)) return;
  const Recording one(job.facts);
  job.facts.use(placed.read);
  const placing::InPicture seen = placing::in_picture(placed.setting, placed.pose);
  const std::vector<physics::Tooth> wanted = teeth_wanted(job, placed.setting);
  // Less is a rim that a crop takes off: norma's choice.
  constexpr Share rim{0.01};
  List there;
  const auto take_area = [&](Unwanted thing, Share share) {
    if (share > rim)
      there.items.emplace_back(phrase::takes_of_picture(
          term_of(thing), diag::Measure{physics::Kind::share, share.value()}));
  };
  const auto take_teeth = [&](Unwanted thing, const std::vector<physics::Tooth>& teeth) {
    if (!teeth.empty()) there.items.emplace_back(phrase::these_teeth(term_of(thing), teeth));
  };
  for (const Unwanted thing : things) {
    switch (thing) {
    case Unwanted::lips: take_area(thing, seen.lips); break;
    case Unwanted::cheeks: take_area(thing, seen.cheeks); break;
    case Unwanted::neighbouring_teeth:
      take_teeth(thing, both(placing::neighbours_of(placed.setting, wanted), seen.teeth));
      break;
    case Unwanted::opposing_teeth: take_teeth(thing, opposing(seen.teeth, wanted)); break;
    default: break;
    }
  }
  if (!there.items.empty()) job.facts.put(fact::unwanted_shown, there);
}

} // namespace norma::plan
