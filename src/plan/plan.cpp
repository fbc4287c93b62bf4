#include "plan/plan.hpp"

#include <algorithm>
#include <unordered_map>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

std::string why_no_teeth(const model::Protocol& protocol) {
  if (protocol.group.broken()) return "the patients the protocol is for";
  if (!protocol.group.known()) return "the patients the protocol is for (word `for`)";
  if (protocol.group->children && protocol.group->teeth.empty()) {
    return "which teeth the children have (`for children, mixed teeth`)";
  }
  return {};
}

physics::Dentition dentition_of(const model::Protocol& protocol) {
  if (!protocol.group.known() || !protocol.group->children) return physics::Dentition::adult;
  return protocol.group->teeth == "milk teeth" ? physics::Dentition::primary
                                               : physics::Dentition::mixed;
}

/// Facts that could not be had and ask a question of their own become open questions.
void collect_open(ViewPlan& view) {
  for (const Fact& f : view.facts.all()) {
    if (f.state != State::unknown || f.row->question.empty()) continue;
    view.open.push_back({std::string(f.row->question), f.why});
  }
}

} // namespace

std::string label(const model::Protocol& protocol, const model::View& view) {
  if (protocol.group_label.empty()) return view.name;
  return view.name + " (" + protocol.group_label + ")";
}

const ViewPlan* Plan::view(std::string_view name) const {
  const auto found = std::find_if(views.begin(), views.end(),
                                  [&](const ViewPlan& v) { return v.view->name == name; });
  return found == views.end() ? nullptr : &*found;
}

Plan make_plan(const model::Protocol& protocol, const kit::Kit* kit, words::Date on) {
  Plan plan;
  plan.protocol = &protocol;
  plan.kit = kit;
  plan.on = on;
  plan.views.resize(protocol.views.size());
  const std::string no_teeth = why_no_teeth(protocol);
  const auto job_for = [&](std::size_t i) {
    return Job{
        protocol, kit,      protocol.views[i],     on, plan.views[i], plan.views[i].facts, {},
        {},       no_teeth, dentition_of(protocol)};
  };
  int scenes_left = most_scenes;
  for (std::size_t i = 0; i < protocol.views.size(); ++i) {
    plan.views[i].view = &protocol.views[i];
    Job job = job_for(i);
    plan_camera(job);
    plan_scale(job);
    plan_framing(job);
    plan_sharpness(job);
    plan_instruments(job);
    plan_mirror_light(job);
    plan_lamp_side(job);
    plan_scene(job, scenes_left);
    plan_glare(job);
    plan_hands(job);
    plan_picture(job);
    plan_lens_room(job);
    plan_upkeep(job);
  }
  // Light comes last and references first: a view is matched to another one's settings. Two rounds
  // do, since what a view is matched to are that view's own settings, not its offset.
  for (std::size_t i = 0; i < protocol.views.size(); ++i) {
    Job job = job_for(i);
    plan_light(job, nullptr);
  }
  std::unordered_map<std::string_view, const ViewPlan*> by_name;
  for (const ViewPlan& v : plan.views)
    by_name.emplace(v.view->name, &v);
  for (std::size_t i = 0; i < protocol.views.size(); ++i) {
    Job job = job_for(i);
    const auto& exposure = protocol.views[i].exposure;
    const auto found = exposure.known() ? by_name.find(exposure->as_view) : by_name.end();
    const ViewPlan* reference = found == by_name.end() ? nullptr : found->second;
    if (reference != nullptr || exposure.broken()) plan_light(job, reference);
    plan_exposure_time(job);
    plan_frame_use(job, plan.views);
    plan_steps(job);
  }
  plan_sides(plan);
  for (ViewPlan& v : plan.views)
    collect_open(v);
  plan_record(plan);
  plan_series(plan);
  return plan;
}

} // namespace norma::plan
