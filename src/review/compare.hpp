// Two runs held against each other: what a change of protocols or kits does to the pictures.
//
// The folder review/ compares two reports, that of before and that of after: views by what they
// say, not by their names; effects by facts, findings and acts, and by what is asked for. It makes
// values; emit/ words them.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diag/diagnostic.hpp"
#include "facts/fact.hpp"
#include "model/protocol.hpp"
#include "plan/acts/act.hpp"
#include "plan/plan.hpp"
#include "report/report.hpp"
#include "words/vocabulary.hpp"

namespace norma::review {

/// How grave a change is; later = graver.
enum class Class {
  none,          // the same pictures are taken in the same way
  wording,       // something is called otherwise
  record,        // what becomes of the pictures
  work,          // the same pictures, taken in another way
  quality,       // they are better or worse, or other things are promised of them
  comparability, // old and new ones cannot be laid side by side
};
inline constexpr std::array all_classes{Class::comparability, Class::quality, Class::work,
                                        Class::record,        Class::wording, Class::none};
std::string_view to_text(Class c);

enum class Kind {
#define NORMA_KIND(name, class) name,
#include "review/kinds.def"
};
Class class_of(Kind kind);
/// As it stands in kinds.def.
std::string_view to_text(Kind kind);
/// What it is called.
const diag::Row& row_of(Kind kind);

/// What a change of a word of this effect is, as long as nobody says what comes of it.
Kind kind_of(words::Effect effect);

/// Clauses of one statement that say something else: `camera`, from `from right, 60 deg from
/// midline` to `straight ahead`.
struct Asked {
  const words::Word* word = nullptr;
  std::string_view key;
  words::Effect effect = words::Effect::handling;
  Kind kind = Kind::steps;
  std::string before; // "" where it was not said
  std::string after;  // "" where it is said no longer
  friend bool operator==(const Asked& a, const Asked& b) {
    return a.word == b.word && a.key == b.key && a.kind == b.kind && a.before == b.before &&
           a.after == b.after;
  }
};

/// A fact that says something else. Where both are teeth, `lost` and `gained` are those of one side
/// alone.
struct Differs {
  const facts::FactRow* row = nullptr;
  Kind kind = Kind::settings;
  words::Effect answers = words::Effect::handling;
  diag::Value before; // empty where it was not known
  diag::Value after;
  diag::Teeth lost;
  diag::Teeth gained;
  friend bool operator==(const Differs& a, const Differs& b) {
    return a.row == b.row && a.before == b.before && a.after == b.after;
  }
};

/// A fact that says the same, though what was asked for it does not.
struct Same {
  const facts::FactRow* row = nullptr;
  diag::Value value;
};

/// What comes of a change at one pair of kits.
struct Effects {
  std::vector<Differs> facts;
  std::vector<const plan::Act*> acts_gone;
  std::vector<const plan::Act*> acts_new;
  std::vector<const diag::Diagnostic*> found_gone; // of the report of before
  std::vector<const diag::Diagnostic*> found_new;
  /// The same finding, as another level or with other numbers.
  std::vector<std::pair<const diag::Diagnostic*, const diag::Diagnostic*>> found_otherwise;
  std::vector<const report::NotChecked*> open_gone;
  std::vector<const report::NotChecked*> open_new;
  bool plan_same = true;  // all that was planned says the same
  bool had_before = true; // no error stood against it
  bool had_after = true;

  [[nodiscard]] bool empty() const;
  [[nodiscard]] bool had_no_longer() const { return had_before && !had_after; }
  [[nodiscard]] bool had_again() const { return !had_before && had_after; }
  /// The gravest of them.
  [[nodiscard]] Class gravest() const;
};

/// What made a difference.
enum class Cause {
  asked,   // what the view itself asks for
  heading, // what the protocol says of all of them
  kit,     // the kit is another one
  others,  // what other views of the protocol say
  came,    // it was not there before
  went,    // it is there no longer
  name,    // its name or title alone
};

/// One thing that changed, and what follows from it.
struct Entry {
  Cause cause = Cause::asked;
  /// Of one effect, as far as that shows in facts; all of them where `together`.
  std::vector<Asked> asked;
  bool together = false; // nobody can say which of them it follows from
  Kind kind = Kind::steps;
  /// Without a kit: by what is asked for alone.
  Class without_kit = Class::none;
  /// It was said, or is said no longer, and holds either way.
  bool holds_anyhow = false;
  /// With each pair of kits, in the order of `Comparison::kits`.
  struct AtKit {
    Class effect = Class::none;
    Effects effects;
    /// What would answer it, and is the same before and after.
    std::vector<Same> same;
    bool no_effect = false; // nothing else is asked otherwise, and nothing comes of it
  };
  std::vector<AtKit> kits;
  /// The same stands at this protocol (in `Comparison::protocols`), which this one builds on, and
  /// is not told again; -1 where not.
  int as_in = -1;

  /// The gravest with any kit.
  [[nodiscard]] Class gravest() const;
};

/// A view before and after.
struct ViewChange {
  int before = -1; // its place in the protocol of before; -1 where there was none
  int after = -1;
  bool renamed = false;
  std::vector<Entry> entries; // gravest first
  /// Something of it is told here.
  [[nodiscard]] bool told_here() const;
  [[nodiscard]] Class gravest() const;
};

struct SeriesChange {
  int before = -1;
  int after = -1;
  bool renamed = false;
  std::vector<Entry> entries;
  std::vector<std::string> order_before; // names of its views, told where they differ
  std::vector<std::string> order_after;
  [[nodiscard]] Class gravest() const;
};

/// A finding that is lived with: from now on, or no longer.
struct Accepted {
  const model::Exception* exception = nullptr;
  bool now = true;
};

/// A protocol for one group of patients, before and after.
struct ProtocolChange {
  std::vector<const report::Held*> before; // one for each pair of kits; empty where there was none
  std::vector<const report::Held*> after;
  std::size_t file = 0; // of `Comparison::files`
  std::string group;    // where the protocol speaks of several
  bool renamed = false;
  std::vector<int> builds_on; // those of `Comparison::protocols` that it builds on
  std::vector<Entry> heading; // what it says of all views and of itself
  std::vector<ViewChange> views;
  std::vector<SeriesChange> series;
  std::vector<Accepted> accepted;
  std::vector<model::Purpose> consent_gone;  // what they may be used for no longer
  std::vector<model::Purpose> consent_added; // what pictures may be used for from now on
  int revision_before = 0;                   // 0 where none is said
  int revision_after = 0;
  bool unread = false;   // one of both could not be read whole: there may be more
  bool not_read = false; // one of both holds no protocol that can be read: nothing is compared

  [[nodiscard]] const model::Protocol* old_protocol() const {
    return before.empty() ? nullptr : before.front()->protocol;
  }
  [[nodiscard]] const model::Protocol* new_protocol() const {
    return after.empty() ? nullptr : after.front()->protocol;
  }
  [[nodiscard]] Class gravest() const;
  /// By what is asked for alone.
  [[nodiscard]] Class without_kit() const;
  [[nodiscard]] Class at_kit(std::size_t kit) const;
  /// By what the protocol says, not by the kit alone, the pictures change, and the number of the
  /// revision was not raised.
  [[nodiscard]] bool revision_forgotten() const;
};

/// A kit before and after; "" for none.
struct KitPair {
  std::string name; // that of after, with that of before where it is another one
  bool same = true; // the same bytes
};

/// A file before and after; each report holds this one file, with plans, and the same kits in the
/// same order.
struct FilePair {
  std::shared_ptr<const report::Report> before; // null where there was none
  std::shared_ptr<const report::Report> after;
  std::string path_before; // as it is told
  std::string path_after;
  bool own_file_same = false; // the bytes of the file itself
  std::vector<int> builds_on; // places of other pairs
};

struct Comparison {
  std::vector<FilePair> files; // they hold what `protocols` name
  std::vector<KitPair> kits;   // one without a name where none was given
  std::vector<ProtocolChange> protocols;
  std::size_t unchanged = 0; // files that say the same to the last byte, with all they build on
  [[nodiscard]] Class gravest() const;
  [[nodiscard]] Class without_kit() const;
  [[nodiscard]] Class at_kit(std::size_t kit) const;
};

/// Fills `protocols` from `files` and `kits`: those that others build on first; what a protocol
/// only takes over is told at its base.
void compare(Comparison& all);

} // namespace norma::review
