// Steps of a comparison; each in its own file.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/canonical.hpp"
#include "review/compare.hpp"
#include "review/pairing.hpp"

namespace norma::review {

/// What one item of a list is matched by.
struct Feature {
  std::string name;
  std::string said;               // all that it says; the same text is the same thing
  std::vector<std::string> parts; // of it, sorted, for likeness
  int kind = 0;                   // only the same kind is matched
};
/// Those that say the same are matched first (by name among them), then those that are most alike;
/// a name that both have counts for a little, and decides where nothing else does.
Matching match(const std::vector<Feature>& before, const std::vector<Feature>& after);

/// What a view is matched by; names of other views count as nothing.
Feature feature_of(const model::Protocol& protocol, const model::View& view);

/// What statements of before and after ask for otherwise, by clause. `name`: what a name of before
/// is called after; `face`: they are of a view of the face.
std::vector<Asked> asked_otherwise(const std::vector<model::Statement>& before,
                                   const std::vector<model::Statement>& after,
                                   const model::NameForm& name, bool face);

/// One view or series or protocol of one report, with one kit.
struct Planned {
  const report::Report* report = nullptr;
  diag::Subject about;
  std::vector<const facts::Facts*> facts; // those of the view, then those of its company
  const std::vector<plan::Act>* acts = nullptr;
};
/// What both say otherwise.
Effects effects_of(const Planned& before, const Planned& after);
/// Facts that answer a word of this effect and say the same.
std::vector<Same> same_facts(const Planned& before, const Planned& after, words::Effect effect);

/// Can it be seen in the facts what comes of a word of this effect?
bool shows_in_facts(const Asked& asked);

/// Entries for what is asked and what comes of it, gravest first. `effects` and what was planned
/// with each pair of kits; `other`: what else may be the cause, where nothing is asked otherwise.
struct AtKits {
  std::vector<Planned> before;
  std::vector<Planned> after;
  std::vector<Effects> effects;
  std::vector<bool> kitless; // planned without a kit: that nothing comes of it proves nothing
};
std::vector<Entry> entries_of(std::vector<Asked> asked, AtKits at, Cause other);

/// The gravest of them with any kit.
Class gravest_of(const std::vector<Entry>& entries);
/// What makes a difference where nothing is asked otherwise.
struct Around;
Cause other_cause(const Around& around);

/// One that nothing is known to follow from; as grave with each kit.
Entry plain_entry(Cause cause, Kind kind, std::size_t kits);

/// What stands around a view or a series of a protocol while it is compared.
struct Around {
  const ProtocolChange& protocol;
  const std::vector<KitPair>& kits;
  const report::Report* before;
  const report::Report* after;
  model::NameForm name;         // what a view of before is called after
  bool heading_changed = false; // the protocol says otherwise what holds for all views
};
/// Places in the two protocols, -1 for none.
ViewChange compare_view(const Around& around, std::pair<int, int> views);
std::vector<SeriesChange> compare_series(const Around& around);
/// Fills all but `builds_on`.
void compare_protocol(ProtocolChange& protocol, const FilePair& file,
                      const std::vector<KitPair>& kits);

} // namespace norma::review
