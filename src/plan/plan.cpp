#include "plan/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <unordered_map>
#include <unordered_set>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

Said why_no_teeth(const model::Protocol& protocol) {
  if (protocol.group.broken()) return missing::patients();
  if (!protocol.group.known()) return missing::word_for();
  if (protocol.group->children && !protocol.group->teeth) return missing::childrens_teeth();
  return {};
}

std::shared_ptr<const physics::Anatomy> anatomy_with(const physics::AnatomyValues& values,
                                                     physics::Dentition dentition,
                                                     const PlanOptions& options) {
  return options.cache == nullptr ? physics::make_anatomy(dentition, values)
                                  : options.cache->anatomy(dentition, values);
}

/// Has the clinic measured sizes of its patients?
bool has_own_sizes(const kit::Kit* kit) {
  return kit != nullptr && (!kit->anatomy.empty() || !kit->teeth.empty());
}

/// The group's mean, with the sizes that the clinic has measured itself; null where no arch meets
/// them.
std::shared_ptr<const physics::Anatomy>
anatomy_of_patients(const kit::Kit* kit, physics::Dentition dentition, const PlanOptions& options) {
  if (!has_own_sizes(kit)) return physics::mean_anatomy(dentition);
  return anatomy_with(sizes_of_patients(kit), dentition, options);
}

std::shared_ptr<const mouths::Mouths> drawn_for(const kit::Kit* kit, physics::Dentition dentition,
                                                const PlanOptions& options) {
  if (!has_own_sizes(kit)) return usual_mouths(dentition); // no verdict hangs on how far they open
  const mouths::Group group = group_of_patients(kit, dentition);
  return options.cache == nullptr ? mouths_for_verdicts(group) : options.cache->many_mouths(group);
}

/// Facts that could not be had and ask a question of their own become open questions.
void collect_open(Work& work) {
  for (const Fact& f : work.facts.all()) {
    if (f.state != State::unknown || f.row->question == nullptr) continue;
    work.open.push_back({diag::Said(*f.row->question, {}), f.why});
  }
}

/// What a view costs beside a plain one: for some mirrors a place is searched.
int looks_taken(const model::View& view) {
  if (!view.taken_in_mirror || !view.mirror.known()) return 1;
  switch (view.mirror->use) {
  case model::MirrorUse::occlusal: return 1;
  case model::MirrorUse::buccal: return 20;
  case model::MirrorUse::disc: return 50;
  case model::MirrorUse::lingual: return 50;
  }
  return 1;
}

/// Works out the views of one protocol, those that say the same once.
class Planner {
 public:
  Planner(const model::Protocol& protocol, const std::shared_ptr<const kit::Kit>& kit,
          const PlanOptions& options)
      : protocol_(protocol), kit_(kit), options_(options), no_teeth_(why_no_teeth(protocol)),
        dentition_(dentition_of(protocol)),
        anatomy_(anatomy_of_patients(kit.get(), dentition_, options)) {
    if (no_teeth_.empty() && !anatomy_) no_teeth_ = missing::arch_widths();
    about_ = about_protocol();
    for (const model::View& v : protocol.views) {
      by_name_.emplace(v.name, &v);
      if (v.exposure.known() && v.exposure->as_view != v.name)
        references_.insert(v.exposure->as_view);
    }
  }

  std::shared_ptr<const Work> work_for(const model::View& view) {
    const model::View* reference = nullptr;
    if (view.exposure.known()) {
      const auto found = by_name_.find(view.exposure->as_view);
      if (found != by_name_.end()) reference = found->second;
    }
    const bool itself = reference == &view;
    const std::string own = key_of(view);
    const std::string other = reference == nullptr ? "none"
                              : itself             ? "itself"
                                                   : key_of(*reference);
    const WorkKey key =
        own.empty() || other.empty() ? WorkKey() : WorkKey(bounded(own) + bounded(other));
    if (!key.empty()) {
      if (auto done = find(key)) return done;
    }
    // A copy only where others are matched to the view by itself, too.
    auto work =
        references_.count(view.name) == 0 ? by_itself(view) : std::make_shared<Work>(*alone(view));
    Recorder recorder(work->facts);
    Job job = job_for(view, *work, recorder);
    if (reference != nullptr) {
      const auto there = itself ? nullptr : alone(*reference);
      const Reference to{*reference, itself ? work->facts : there->facts, itself};
      const Recording one(recorder);
      plan_light(job, &to);
    } else if (view.exposure.broken()) {
      const Recording one(recorder);
      plan_light(job, nullptr);
    }
    run(job, {plan_exposure_time, plan_hangs, plan_acts});
    collect_open(*work);
    work->facts.give_back_room();
    if (!key.empty()) keep(key, work);
    return work;
  }

 private:
  /// What of the protocol counts for every view of it, as bytes.
  [[nodiscard]] std::string about_protocol() const {
    std::string out;
    const auto raw = [&](const auto& value) {
      char bytes[sizeof value];
      std::memcpy(bytes, &value, sizeof value);
      out.append(bytes, sizeof value);
    };
    raw(kit_.get()); // a kept work holds its kit: no other one comes to lie there
    raw(options_.on);
    out += row_key(no_teeth_);
    raw(dentition_);
    raw(protocol_.no_assistant);
    raw(protocol_.sensor.broken());
    raw(protocol_.sensor.value_or({}));
    const auto missing = protocol_.missing.value_or({});
    raw(missing.size());
    for (const physics::Tooth t : missing)
      raw(t.iso());
    return out;
  }

  /// Its length first: what follows cannot be taken for a part of it.
  static std::string bounded(std::string_view text) {
    return std::to_string(text.size()) + ":" + std::string(text);
  }
  /// For what the planner itself says, where a row always has the same arguments.
  static std::string row_key(const Said& said) {
    return bounded(said.row == nullptr ? std::string_view() : said.row->id);
  }

  /// All that a view's own work rests on, as bytes; "" where it is not known what it says.
  std::string key_of(const model::View& view) {
    if (view.content < 0) return {};
    // The list names the view that takes its place by its title.
    std::string title;
    if (view.or_else_view.known()) {
      const auto other = by_name_.find(view.or_else_view.get());
      if (other != by_name_.end()) title = other->second->title;
    }
    const std::string key = about_ + (view.kind == model::ViewKind::face ? "F" : "M") +
                            row_key(why_not(view)) + bounded(title);
    return key + protocol_.contents[static_cast<std::size_t>(view.content)];
  }

  /// What is missing to look at the view in three dimensions; empty where it is looked at. Views
  /// that say the same count once; one that names very many surfaces counts for several.
  const Said& why_not(const model::View& view) {
    static const Said none;
    static const Said unasked = missing::scene_left_out();
    static const Said too_many = missing::shorter_protocol(most_scenes);
    if (!options_.scene) return unasked;
    const auto [entry, fresh] = seen_.try_emplace(view.content, true);
    if (fresh || view.content < 0) {
      entry->second = scenes_left_ > 0;
      constexpr int usual_surfaces = 12;
      const std::size_t surfaces = (view.must_show.known() ? view.must_show->size() : 0) +
                                   (view.or_else_show.known() ? view.or_else_show->size() : 0);
      const int choices = view.or_else_show.known() ? 2 : 1;
      if (entry->second && view.must_show.known())
        scenes_left_ -=
            (1 + static_cast<int>(surfaces) / usual_surfaces) * looks_taken(view) * choices;
    }
    return entry->second ? none : too_many;
  }

  /// A view that others are matched to, by itself: kept for them.
  std::shared_ptr<const Work> alone(const model::View& view) {
    const std::string own = key_of(view);
    const WorkKey key = own.empty() ? WorkKey() : WorkKey(own + "alone");
    if (!key.empty()) {
      if (auto done = find(key)) return done;
    }
    const std::shared_ptr<Work> work = by_itself(view);
    work->facts.give_back_room();
    if (!key.empty()) keep(key, work);
    return work;
  }

  /// The view by itself, before it is matched to another one.
  std::shared_ptr<Work> by_itself(const model::View& view) {
    auto work = worked_out(view, nullptr);
    const auto first = work;
    const Facts* too_bright = stops_down(first->facts) ? &first->facts : nullptr;
    if (too_bright != nullptr) work = worked_out(view, too_bright);
    if (view.or_else_show.known() && why_not(view).empty() &&
        !work->facts.has(fact::fallback_of_other_face)) {
      const model::View second = second_choice_of(view);
      Recorder recorder(work->facts);
      Job job = job_for(view, *work, recorder);
      judge_fallback(job, *worked_out(second, too_bright, true), view.or_else_show.get());
    }
    return work;
  }

  /// Does the range let one stop down because the flash is too bright at its least power?
  static bool stops_down(const Facts& facts) {
    const auto excess = facts.get(fact::excess);
    const auto aperture = facts.get(fact::aperture);
    const auto narrowest = facts.get(fact::narrowest_allowed);
    return excess && aperture && narrowest && *excess >= 1e-6 * stop && *narrowest > *aperture;
  }

  /// The parts of a view, one after the other; what one of them reads counts for it alone.
  static void run(Job& job, std::initializer_list<void (*)(Job&)> parts) {
    for (const auto part : parts) {
      const Recording one(job.facts);
      part(job);
    }
  }

  /// `too_bright`: the view as it came out before it is stopped down; null where it is not.
  std::shared_ptr<Work> worked_out(const model::View& view, const Facts* too_bright,
                                   bool second_choice = false) {
    auto work = std::make_shared<Work>();
    work->kit = kit_;
    work->facts.make_room();
    Recorder recorder(work->facts);
    Job job = job_for(view, *work, recorder);
    job.too_bright = too_bright;
    job.second_choice = second_choice;
    run(job,
        {plan_patient, plan_camera, plan_scale, plan_framing, plan_fallback, plan_frame_use,
         plan_sharpness, plan_instruments, plan_mirror_light, plan_attachments, plan_lamp_side});
    {
      const Recording one(recorder);
      plan_scene(job, why_not(view));
    }
    run(job, {plan_second_image, plan_glare, plan_hands, plan_picture, plan_lens_room,
              plan_white_balance, plan_file_format, plan_upkeep});
    const Recording one(recorder);
    plan_light(job, nullptr);
    return work;
  }

  Job job_for(const model::View& view, Work& work, Recorder& recorder) const {
    return {protocol_,
            kit_.get(),
            view,
            options_.on,
            work,
            recorder,
            {},
            {},
            no_teeth_,
            anatomy_,
            [this] { return many_mouths(); }};
  }

  [[nodiscard]] std::span<const mouths::Drawn> many_mouths() const {
    if (!drawn_) drawn_ = drawn_for(kit_.get(), dentition_, options_);
    return drawn_->drawn;
  }

  [[nodiscard]] std::shared_ptr<const Work> find(const WorkKey& key) const {
    const auto own = works_.find(key);
    if (own != works_.end()) return own->second;
    return options_.cache == nullptr ? nullptr : options_.cache->find(key);
  }
  void keep(const WorkKey& key, std::shared_ptr<const Work> work) {
    if (options_.cache != nullptr) options_.cache->put(key, work);
    works_.emplace(key, std::move(work));
  }

  const model::Protocol& protocol_;
  const std::shared_ptr<const kit::Kit>& kit_;
  const PlanOptions& options_;
  Said no_teeth_;
  physics::Dentition dentition_;
  std::shared_ptr<const physics::Anatomy> anatomy_;
  std::string about_;
  std::unordered_map<std::string_view, const model::View*> by_name_;
  std::unordered_set<std::string_view> references_; // views that others are matched to
  std::unordered_map<WorkKey, std::shared_ptr<const Work>, WorkKey::Hash> works_;
  std::unordered_map<int, bool> seen_; // by content: is it looked at?
  int scenes_left_ = most_scenes;
  mutable std::shared_ptr<const mouths::Mouths> drawn_;
};

} // namespace

physics::Dentition dentition_of(const model::Protocol& protocol) {
  if (!protocol.group.known() || !protocol.group->children) return physics::Dentition::adult;
  return protocol.group->teeth == model::GroupTeeth::milk_teeth ? physics::Dentition::primary
                                                                : physics::Dentition::mixed;
}

physics::AnatomyValues sizes_of_patients(const kit::Kit* kit) {
  physics::AnatomyValues values;
  if (kit == nullptr) return values;
  for (const kit::OwnValue& own : kit->anatomy) {
    if (own.value.known()) values.set(*own.which, own.value.get());
  }
  const auto given = [](const text::Sourced<Length>& size) {
    return size.known() ? std::optional(size.get()) : std::nullopt;
  };
  for (const kit::ToothSizes& t : kit->teeth) {
    if (t.tooth.known())
      values.set({t.tooth.get(), given(t.height), given(t.width), given(t.depth)});
  }
  return values;
}

std::string label(const model::Protocol& protocol, const model::View& view) {
  if (protocol.group_label.empty()) return view.name;
  return view.name + " (" + protocol.group_label + ")";
}

const std::vector<OpenQuestion>& never_checked() {
  static const std::vector<OpenQuestion> all{
      {diag::question::what_else_hides(), diag::missing::model_of_them()},
      {diag::question::this_patient(), diag::missing::this_patients_sizes()}};
  return all;
}

const ViewPlan* Plan::view(std::string_view name) const {
  const auto found = std::find_if(views.begin(), views.end(),
                                  [&](const ViewPlan& v) { return v.view->name == name; });
  return found == views.end() ? nullptr : &*found;
}

std::shared_ptr<const physics::Anatomy> WorkCache::anatomy(physics::Dentition dentition,
                                                           const physics::AnatomyValues& values) {
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(anatomies_.begin(), anatomies_.end(), [&](const Own& o) {
    return o.dentition == dentition && o.values == values;
  });
  if (found != anatomies_.end()) return found->anatomy;
  if (anatomies_.size() == most_anatomies) anatomies_.erase(anatomies_.begin());
  anatomies_.push_back({dentition, values, physics::make_anatomy(dentition, values)});
  return anatomies_.back().anatomy;
}

std::shared_ptr<const mouths::Mouths> WorkCache::many_mouths(const mouths::Group& group) {
  const std::lock_guard lock(drawing_);
  const auto found = std::find_if(drawn_.begin(), drawn_.end(), [&](const auto& of) {
    return of.first.dentition == group.dentition && of.first.values == group.values &&
           of.first.spread == group.spread;
  });
  if (found != drawn_.end()) return found->second;
  if (drawn_.size() == most_drawn) drawn_.erase(drawn_.begin());
  drawn_.emplace_back(group, mouths_for_verdicts(group));
  return drawn_.back().second;
}

Plan make_plan(const model::Protocol& protocol, const std::shared_ptr<const kit::Kit>& kit,
               const PlanOptions& options) {
  Plan plan;
  plan.protocol = &protocol;
  plan.kit = kit.get();
  plan.on = options.on;
  plan.views.reserve(protocol.views.size());
  Planner planner(protocol, kit, options);
  for (const model::View& view : protocol.views) {
    if (options.cancelled != nullptr && *options.cancelled) return plan;
    plan.views.emplace_back(view, planner.work_for(view));
  }
  plan_ratios(plan);
  plan_sides(plan);
  plan_record(plan);
  plan_series(plan);
  return plan;
}

} // namespace norma::plan
