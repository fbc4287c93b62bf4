// Verdicts as shares: in how many mouths a view shows what fails, or comes near to failing, in the
// mean one.
#include <map>

#include "facts/mouth_terms.hpp"
#include "placing/lamp.hpp"
#include "placing/layout.hpp"
#include "placing/mirror.hpp"
#include "placing/room.hpp"
#include "plan/many_mouths.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

using diag::Teeth;
using physics::Wanted;

/// One thing that a view promises of its surfaces.
struct Promise {
  bool (*broken)(const Shown&, const placing::Limits&);
  const facts::FactDef<int>* in_mouths;
  const facts::FactDef<Said>* hangs_on;
  const facts::FactDef<Teeth>* in_some; // the teeth of which it is broken in more than the few
};

bool is_hidden(const Shown& s, const placing::Limits&) { return placing::stands_behind(s); }
bool is_cut_off(const Shown& s, const placing::Limits&) { return !s.in_mirror; }
bool is_turned(const Shown& s, const placing::Limits& l) { return s.obliquity > l.turned; }
bool is_dark(const Shown& s, const placing::Limits&) { return placing::in_shadow(s); }

constexpr std::size_t hidden = 0, beside = 1, turned = 2, dark = 3, of_surfaces = 4;
const std::array<Promise, of_surfaces>& promises() {
  static const std::array<Promise, of_surfaces> rows{
      {{is_hidden, &fact::shown_in_mouths, &fact::shown_hangs_on, &fact::hidden_in_some},
       {is_cut_off, &fact::in_mirror_in_mouths, &fact::in_mirror_hangs_on, &fact::beside_in_some},
       {is_turned, &fact::squarely_in_mouths, &fact::squarely_hangs_on, &fact::turned_in_some},
       {is_dark, &fact::lit_in_mouths, &fact::lit_hangs_on, &fact::dark_in_some}}};
  return rows;
}

/// Opened as wide as each patient does; by a clinic that has measured it all open alike.
bool opens_wide(const Job& job, const Placed& view) {
  const facts::Fact* opening = job.facts.find(fact::mouth_opening);
  const bool measured = opening != nullptr && opening->status == Status::measured;
  return view.setting.opening && !job.view.least_opening.known() && !measured;
}
/// Where this clinic holds the corners of mouths is measured: its patients are taken as alike.
bool corners_alike(const Job& job) {
  const facts::Fact* corner = job.facts.find(fact::corner_side);
  return corner != nullptr && corner->status == Status::measured;
}

/// What other mouths are asked: of each promise the surfaces for which it is near.
struct Asked {
  std::array<std::vector<Wanted>, of_surfaces> of;
  bool fits = false;

  void add(std::size_t promise, const Shown& s) {
    const Wanted w{s.tooth, s.surface};
    if (!holds(of[promise], w)) of[promise].push_back(w);
  }
  [[nodiscard]] bool any() const {
    return fits || std::any_of(of.begin(), of.end(), [](const auto& one) { return !one.empty(); });
  }
  static bool holds(const std::vector<Wanted>& some, const Wanted& w) {
    return std::find(some.begin(), some.end(), w) != some.end();
  }
};

/// A mirror of the pose a little smaller all round.
Pose with_smaller_mirror(const Pose& pose) {
  constexpr Length by = 8.0 * mm; // one and a half spreads of an arch's width
  Pose out = pose;
  physics::PlaneMirror& m = *out.mirror;
  m.width = std::max(m.width - by, 1.0 * mm);
  m.narrow_end = std::max(m.narrow_end - by, 1.0 * mm);
  m.length = std::max(m.length - by, 1.0 * mm);
  m.corner = std::min(m.corner, 0.5 * std::min(m.width, m.narrow_end));
  return out;
}

bool room_is_near(const Job& job) {
  constexpr Length spread = 8.0 * mm; // of an opening, or of corners held farther in
  const auto needed = job.facts.get(fact::opening_for_mirror);
  const auto opening = job.facts.get(fact::mouth_opening);
  const auto mirror = job.facts.get(fact::mirror_at_corners);
  const auto between = job.facts.get(fact::between_corners);
  return job.facts.has(fact::mirror_at_no_opening) ||
         (needed && opening && *needed + spread > *opening) ||
         (mirror && between && *mirror + spread > *between);
}

Asked asked_of(const Job& job, const Placed& view, const std::vector<Shown>& farther_in) {
  const Setting& setting = view.setting;
  const placing::Limits& limits = setting.limits;
  Asked out;
  constexpr double share = 0.2;
  constexpr double light = 0.05;
  constexpr Angle angle = 8.0 * degree;
  const bool shades = view.lamp && placing::may_shade(setting);
  for (const Shown& s : job.out.shown) {
    if (is_hidden(s, limits) || s.seen + s.beside < (limits.seen.value() + share) * s.facing)
      out.add(hidden, s);
    if (s.obliquity > limits.turned - angle) out.add(turned, s);
    if (shades && s.lit < limits.lit.value() + light) out.add(dark, s);
  }
  for (const Shown& s : farther_in) {
    if (is_hidden(s, limits)) out.add(hidden, s);
    if (shades && is_dark(s, limits)) out.add(dark, s);
  }
  if (setting.mirror) {
    const Pose smaller = with_smaller_mirror(view.pose);
    for (const Shown& s : placing::look_past_bodies(setting, smaller, setting.wanted, {})) {
      if (is_cut_off(s, limits)) out.add(beside, s);
    }
    out.fits = room_is_near(job);
  }
  return out;
}

/// What comes of one mouth; where nothing has its place there, nothing is said of the surfaces.
struct Fares {
  std::array<bool, of_surfaces> holds{};
  bool fits = false;
};

class InEach {
 public:
  InEach(const Job& job, const Placed& view, Asked asked)
      : setting_(view.setting), asked_(std::move(asked)), opens_wide_(opens_wide(job, view)),
        alike_(corners_alike(job)) {
    for (const mouths::Drawn& mouth : job.many_mouths())
      mouths_.push_back(as_held(mouth));
    for (const mouths::Drawn* mouth : unlike())
      ask_for_what_fails(*mouth);
    for (std::size_t p = 0; p < of_surfaces; ++p)
      of_[p].assign(asked_.of[p].size(), {});
    for (const mouths::Drawn& mouth : mouths_) {
      if (fares_.size() == first_asked) drop_what_holds();
      if (!asked_.any()) return;
      fares_.push_back(look_into(mouth));
    }
  }

  /// What is asked of all of them.
  [[nodiscard]] const Asked& asked() const { return asked_; }

  [[nodiscard]] InMouths of(std::size_t which) const {
    return share([which](const Fares& f) { return f.holds[which]; });
  }
  [[nodiscard]] InMouths fits() const {
    return share([](const Fares& f) { return f.fits; });
  }
  /// The teeth of which it is broken in more mouths than the few.
  [[nodiscard]] Teeth in_some(std::size_t which) const {
    return teeth(which, [&](const OneSurface& s) {
      return mouths::of_hundred(s.broken, mouths_.size()) > 100 - nearly_all;
    });
  }
  /// The teeth of which nothing is seen in any, where that is asked.
  [[nodiscard]] Teeth never_seen() const {
    const auto never = [](const OneSurface& s) { return !s.ever_seen; };
    Teeth out = teeth(hidden, never);
    for (const physics::Tooth tooth : teeth(beside, never))
      out.push_back(tooth);
    return out;
  }
  /// One surface for each thing that hides a fifth of those that are hidden, or more.
  [[nodiscard]] std::vector<Shown> hidden_ones() const { return often(hidden_); }
  /// The same of those in shadow.
  [[nodiscard]] std::vector<Shown> dark_ones() const { return often(dark_); }

 private:
  /// The mouths that are farthest from the mean in what most often counts.
  [[nodiscard]] std::vector<const mouths::Drawn*> unlike() const {
    using mouths::Varies;
    constexpr std::pair<Varies, int> ways[] = {
        {Varies::corner_back, -1},  {Varies::corner_aside, -1}, {Varies::opening, -1},
        {Varies::upper_molars, 1},  {Varies::upper_molars, -1}, {Varies::lower_molars, 1},
        {Varies::lower_molars, -1}, {Varies::tooth_size, 1},    {Varies::overbite, 1}};
    std::vector<const mouths::Drawn*> out;
    for (const auto& [what, sign] : ways) {
      const auto off = [what = static_cast<std::size_t>(what), sign = sign](const auto& mouth) {
        return sign * mouth.off[what];
      };
      const auto most =
          std::max_element(mouths_.begin(), mouths_.end(),
                           [&](const auto& a, const auto& b) { return off(a) < off(b); });
      const mouths::Drawn* one = &*most;
      if (off(*one) > 0 && std::find(out.begin(), out.end(), one) == out.end()) out.push_back(one);
    }
    return out;
  }
  /// What fails there is asked of all: few pieces find it.
  void ask_for_what_fails(const mouths::Drawn& mouth) {
    using Kind = placing::CameraLamp::Kind;
    const auto own = mouths::of_mouth(setting_, mouth, opens_wide_);
    const auto pose = own ? placing::pose_of(*own) : std::nullopt;
    if (!pose) return;
    // Around the lens a lamp throws shadows where the lens sees nearly none.
    const bool beside_lens = setting_.lamp && setting_.lamp->kind != Kind::ring;
    const auto lamp =
        beside_lens && placing::may_shade(setting_) ? placing::lamp_of(*own, *pose) : std::nullopt;
    const placing::Pieces few{pieces.few, pieces.few};
    for (const Shown& s :
         placing::look_as_needed(*own, *pose, lamp ? &*lamp : nullptr, setting_.wanted, few)) {
      for (std::size_t p = 0; p < of_surfaces; ++p) {
        const bool told = p == dark ? lamp.has_value() : p != beside || pose->mirror;
        if (told && promises()[p].broken(s, setting_.limits)) asked_.add(p, s);
      }
    }
    if (pose->mirror && !placing::mirror_fits(*own, *pose)) asked_.fits = true;
  }

  /// What holds in each of so many, evenly spread as the first of them are, holds in nearly all,
  /// and is asked no further.
  static constexpr std::size_t first_asked = 24;
  void drop_what_holds() {
    const auto all = [&](auto holds) { return std::all_of(fares_.begin(), fares_.end(), holds); };
    for (std::size_t p = 0; p < of_surfaces; ++p) {
      if (all([p](const Fares& f) { return f.holds[p]; })) asked_.of[p].clear();
    }
    if (all([](const Fares& f) { return f.fits; })) asked_.fits = false;
  }

  /// What cannot vary here counts for nothing.
  [[nodiscard]] mouths::Drawn as_held(const mouths::Drawn& mouth) const {
    using mouths::Varies;
    const bool held = setting_.mouth.right || setting_.mouth.left;
    mouths::Drawn out = alike_ || !held ? mouths::with_corners_alike(mouth) : mouth;
    if (!opens_wide_) out.off[static_cast<std::size_t>(Varies::opening)] = 0;
    return out;
  }

  Fares look_into(const mouths::Drawn& mouth) {
    Fares out;
    out.holds.fill(true);
    auto own = mouths::of_mouth(setting_, mouth, opens_wide_);
    const auto pose = own ? placing::pose_of(*own) : std::nullopt;
    if (!pose) return out;
    out.fits = !asked_.fits || placing::mirror_fits(*own, *pose);
    // What only hangs on how things lie is found without looking for what stands between.
    const auto lying = [&](std::size_t promise) {
      return placing::look_past_bodies(*own, *pose, asked_.of[promise], pieces);
    };
    count(turned, lying(turned), out);
    if (pose->mirror) count(beside, lying(beside), out);
    count(dark, look(*own, *pose, true), out);
    count(hidden, look(*own, *pose, false), out);
    return out;
  }

  [[nodiscard]] std::vector<Shown> look(const Setting& own, const Pose& pose, bool lit) const {
    const auto lamp = lit ? placing::lamp_of(own, pose) : std::nullopt;
    return placing::look_as_needed(own, pose, lamp ? &*lamp : nullptr,
                                   asked_.of[lit ? dark : hidden], pieces);
  }

  static constexpr placing::Pieces pieces{13, 55};

  void count(std::size_t promise, const std::vector<Shown>& shown, Fares& fares) {
    for (std::size_t i = 0; i < shown.size(); ++i) {
      const Shown& s = shown[i];
      OneSurface& of = of_[promise][i];
      if (s.seen > placing::tooth_seen * s.facing) of.ever_seen = true;
      if (!promises()[promise].broken(s, setting_.limits)) continue;
      fares.holds[promise] = false;
      ++of.broken;
      if (promise == hidden) note(hidden_, {s.hider, s.hider_tooth}, s);
      if (promise == dark) note(dark_, {s.shade, {}}, s);
    }
  }

  /// What stands in the way: one surface of each, and how many there are.
  using Causes = std::map<std::pair<placing::Hider, std::optional<physics::Tooth>>,
                          std::pair<Shown, std::size_t>>;
  static std::vector<Shown> often(const Causes& causes) {
    constexpr std::size_t few = 5;
    std::size_t all = 0;
    for (const auto& [by, of] : causes)
      all += of.second;
    std::vector<Shown> out;
    for (const auto& [by, of] : causes) {
      if (of.second * few >= all) out.push_back(of.first);
    }
    return out;
  }

  static void note(Causes& causes, const Causes::key_type& by, const Shown& s) {
    ++causes.try_emplace(by, s, 0).first->second.second;
  }

  template <class Holds> [[nodiscard]] InMouths share(const Holds& holds) const {
    return in_mouths(mouths_, Counts::all, [&](const mouths::Drawn& mouth) {
      return holds(fares_[static_cast<std::size_t>(&mouth - mouths_.data())]);
    });
  }
  template <class Which> [[nodiscard]] Teeth teeth(std::size_t promise, const Which& which) const {
    Teeth out;
    for (std::size_t i = 0; i < of_[promise].size(); ++i) {
      if (which(of_[promise][i])) out.push_back(asked_.of[promise][i].tooth);
    }
    return out;
  }

  /// Over all mouths.
  struct OneSurface {
    std::size_t broken = 0;
    bool ever_seen = false;
  };
  const Setting& setting_;
  Asked asked_;
  bool opens_wide_;
  bool alike_;
  std::vector<mouths::Drawn> mouths_;
  std::vector<Fares> fares_;
  std::array<std::vector<OneSurface>, of_surfaces> of_; // by promise
  Causes hidden_;
  Causes dark_;
};

void tell(Job& job, const InMouths& in, const facts::FactDef<int>& in_mouths,
          const facts::FactDef<Said>& hangs_on) {
  job.facts.put(in_mouths, in.of_hundred);
  if (in.by) job.facts.put(hangs_on, facts::term_of(*in.by));
}

/// What is read for a promise.
void read_for(Job& job, const Placed& view, std::size_t which) {
  job.facts.use(view.read);
  if (which == turned) job.facts.find(fact::turned_limit);
  if (which != dark) return;
  job.facts.use(view.lamp_read);
  job.limit(fact::least_lit, physics::defaults::lit_share);
}

} // namespace

void judge_in_mouths(Job& job, const Placed& view, const std::vector<Shown>& farther_in) {
  // Where a mirror's place is searched, mouth for mouth, it would take too long.
  if (view.setting.mirror && view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  if (job.many_mouths().empty()) return;
  const InEach each(job, view, asked_of(job, view, farther_in));
  const Asked& asked = each.asked();
  for (std::size_t p = 0; p < of_surfaces; ++p) {
    if (asked.of[p].empty()) continue;
    const Recording one(job.facts);
    read_for(job, view, p);
    job.facts.note(Status::assumed); // some spreads, and how they hang together, are
    tell(job, each.of(p), *promises()[p].in_mouths, *promises()[p].hangs_on);
    if (Teeth some = each.in_some(p); !some.empty())
      job.facts.put(*promises()[p].in_some, std::move(some));
    if (p == hidden) {
      if (List by = hiders_of(each.hidden_ones()); !by.items.empty())
        job.facts.put(fact::hidden_in_some_by, std::move(by));
    }
    if (p == dark) {
      if (List by = shades_of(each.dark_ones()); !by.items.empty())
        job.facts.put(fact::dark_in_some_by, std::move(by));
    }
  }
  const Recording one(job.facts);
  job.facts.use(view.read);
  job.facts.note(Status::assumed);
  if (Teeth never = each.never_seen(); !never.empty())
    job.facts.put(fact::never_seen, std::move(never));
  if (asked.fits) tell(job, each.fits(), fact::mirror_fits_in_mouths, fact::mirror_fits_hangs_on);
}

} // namespace norma::plan
