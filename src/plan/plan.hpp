// Protocol x kit -> plan: for each view its facts, what remains open, and the acts at the chair.
#pragma once

#include <atomic>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "facts/choices.hpp"
#include "facts/fact.hpp"
#include "facts/recorder.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "mouths/draw.hpp"
#include "physics/scene/look.hpp"
#include "placing/setting.hpp"
#include "plan/acts/act.hpp"
#include "text/cache.hpp"
#include "words/literal.hpp"

namespace norma::plan {

using namespace facts;

/// Something nobody can say, and the datum that would answer it.
struct OpenQuestion {
  diag::Said what;
  diag::Said missing;
};

/// What norma checks in no view, whatever protocol and kit say: it is said with every plan.
const std::vector<OpenQuestion>& never_checked();

/// What a view asks for and which piece of the kit was taken for it; null where there is none.
struct Chosen {
  const kit::Lamp* lamp = nullptr;
  const kit::Lamp* joined_lamp = nullptr; // burns with it
  const kit::Mirror* mirror = nullptr;
  const kit::Retractor* right_retractor = nullptr;
  const kit::Retractor* left_retractor = nullptr;

  /// The one piece that holds both sides; null where there is none.
  [[nodiscard]] const kit::Retractor* one_piece() const {
    const bool one = right_retractor != nullptr && right_retractor == left_retractor &&
                     right_retractor->holds_both_sides();
    return one ? right_retractor : nullptr;
  }
};

/// Views of one protocol, of a dozen surfaces each, that are looked at in three dimensions; beyond
/// them it is said that they were not.
inline constexpr int most_scenes = 1000;

struct Scene {
  physics::MouthState mouth;
  physics::Eye eye;
  std::vector<physics::Point> lamp; // empty where none was placed
};

/// Everything that is worked out for a view; one for all views that say the same.
struct Work {
  std::shared_ptr<const kit::Kit> kit; // holds what `chosen` names
  Facts facts;
  Chosen chosen;
  /// Mouth, camera, mirror and lamp as they stand; nothing where they were not placed.
  std::optional<Scene> scene;
  /// Surfaces that must show, as the model of the mouth shows them; empty where they were not
  /// looked at.
  std::vector<physics::Shown> shown;
  /// The view as placing/ takes it, for whoever asks how it fares in other mouths; null where it
  /// was not looked at.
  std::shared_ptr<const placing::Setting> setting;
  Record read;     // for scene and shown
  Record lit_read; // the same, and for the lamp
  std::vector<OpenQuestion> open;
  std::vector<Act> acts; // in their order
};

/// A view, and what was worked out for it.
struct ViewPlan {
  ViewPlan(const model::View& v, std::shared_ptr<const Work> w)
      : view(&v), work(std::move(w)), facts(work->facts), chosen(work->chosen), scene(work->scene),
        shown(work->shown), open(work->open), acts(work->acts) {}

  const model::View* view;
  std::shared_ptr<const Work> work; // holds what the references below name
  const Facts& facts;
  const Chosen& chosen;
  const std::optional<Scene>& scene;
  const std::vector<physics::Shown>& shown;
  const std::vector<OpenQuestion>& open;
  const std::vector<Act>& acts;
  Facts company; // what rests on the other views of the protocol
};

/// All that a work rests on, as bytes; hashed once, and shared by the tables that hold it. Empty
/// where that is not known.
class WorkKey {
 public:
  struct Hash {
    std::size_t operator()(const WorkKey& key) const { return key.hash_; }
  };

  WorkKey() = default;
  explicit WorkKey(std::string bytes)
      : bytes_(std::make_shared<const std::string>(std::move(bytes))),
        hash_(std::hash<std::string>{}(*bytes_)) {}
  [[nodiscard]] bool empty() const { return bytes_ == nullptr; }
  friend bool operator==(const WorkKey& a, const WorkKey& b) {
    if (a.hash_ != b.hash_ || a.empty() != b.empty()) return false;
    return a.bytes_ == b.bytes_ || *a.bytes_ == *b.bytes_;
  }

 private:
  std::shared_ptr<const std::string> bytes_;
  std::size_t hash_ = 0;
};

/// Work that was done once, for views of several protocols that say the same; for several threads.
/// Holds no more than `most` works, each with its kit; the one used longest ago goes first.
class WorkCache {
 public:
  static constexpr std::size_t usual = 2000;
  explicit WorkCache(std::size_t most = usual) : works_(most) {}
  [[nodiscard]] std::shared_ptr<const Work> find(const WorkKey& key) { return works_.find(key); }
  void put(const WorkKey& key, std::shared_ptr<const Work> work) {
    ++worked_;
    works_.put(key, std::move(work));
  }
  /// How many works were done; a view that another one is matched to counts once more for itself.
  [[nodiscard]] std::size_t worked() const { return worked_; }
  [[nodiscard]] std::size_t hits() const { return works_.hits(); }
  [[nodiscard]] std::size_t evicted() const { return works_.evicted(); }
  [[nodiscard]] std::size_t size() const { return works_.size(); }
  /// Patients of a kit with sizes of its own; null where no arch meets them.
  std::shared_ptr<const physics::Anatomy> anatomy(physics::Dentition dentition,
                                                  const physics::AnatomyValues& values);
  /// The mouths by which verdicts are told of a group.
  std::shared_ptr<const mouths::Mouths> many_mouths(const mouths::Group& group);

 private:
  struct Own {
    physics::Dentition dentition;
    physics::AnatomyValues values;
    std::shared_ptr<const physics::Anatomy> anatomy;
  };
  static constexpr std::size_t most_anatomies = 64;
  text::Cache<Work, WorkKey, WorkKey::Hash> works_;
  std::atomic<std::size_t> worked_{0};
  std::mutex mutex_;
  std::vector<Own> anatomies_; // one for each kit with sizes of its own and group
  static constexpr std::size_t most_drawn = 8;
  std::mutex drawing_;
  std::vector<std::pair<mouths::Group, std::shared_ptr<const mouths::Mouths>>> drawn_;
};

/// What taking a whole series asks of the patient.
struct SeriesPlan {
  const model::Series* series = nullptr;
  Facts facts;
};

struct Plan {
  const model::Protocol* protocol = nullptr;
  const kit::Kit* kit = nullptr; // null: planned without a kit
  words::Date on;
  std::vector<ViewPlan> views; // in the protocol's order
  std::vector<SeriesPlan> series;
  Facts facts; // about the protocol as a whole

  [[nodiscard]] const ViewPlan* view(std::string_view name) const;
};

/// Whose teeth a protocol speaks of.
physics::Dentition dentition_of(const model::Protocol& protocol);
/// norma's values, or the clinic's own in their place; `kit` may be null.
physics::AnatomyValues sizes_of_patients(const kit::Kit* kit);
/// Is the lamp on the other side than the view wants?
bool lamp_lies_wrong(const model::View& view, LampAt at);
/// Who does what is said of nobody: the assistant; with none, the operator. `kit` may be null.
Who helper_of(const model::Protocol& protocol, const kit::Kit* kit);
/// What is done about the grey card that is photographed with these views, the first or the last of
/// them; nothing where the protocol asks for none.
std::vector<Act> grey_card_acts(const Plan& plan, const std::vector<const ViewPlan*>& views);

/// A view's name; with the group it is for where the protocol speaks of several.
std::string label(const model::Protocol& protocol, const model::View& view);

struct PlanOptions {
  words::Date on;
  bool scene = true;          // look at the views in three dimensions
  WorkCache* cache = nullptr; // where there is one
  /// Once it is true, no further view is begun, and the plan is none: its caller throws it away.
  const std::atomic<bool>* cancelled = nullptr;
};

/// Works everything out; `kit` may be null. Protocol and kit must outlive the plan; what is kept
/// shares the kit.
Plan make_plan(const model::Protocol& protocol, const std::shared_ptr<const kit::Kit>& kit,
               const PlanOptions& options);

} // namespace norma::plan
