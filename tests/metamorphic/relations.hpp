// Metamorphic relations: what must come out the same when a protocol is said in another way.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "draw.hpp"
#include "told.hpp"

namespace norma::test::meta {

/// A drawn protocol and kits for it. `seed` decides what a relation draws itself.
struct Case {
  Statement protocol;
  std::vector<std::string> kits; // called kit_one and kit_two
  std::uint64_t seed = 0;
};

/// What two runs, which should say the same, did not both say; and what they ran on.
struct Outcome {
  Difference difference;
  std::string first;
  std::string second;
};

struct Relation {
  std::string_view name;
  Outcome (*hold)(const Case& c);
};
std::span<const Relation> relations();

/// A fault that is known and stands: lines of the differences that come of it, a small case that
/// shows it, and why it is left.
struct Known {
  std::string_view relation;
  const char* lines; // a regular expression
  const char* why;
  bool (*still_fails)();
};
std::span<const Known> known();

/// The words that relations write themselves (`builds on`, `change view`, ...), as they wrote them.
std::set<std::string>& drawn_by_relations();

/// Runs `norma` in the current folder, on a day that stays the same, and gives what it printed.
std::string norma(std::vector<std::string> words);
/// Takes out of the protocol what the program refuses to read, until it refuses nothing.
void mend(Case& c);
bool well_formed(const Case& c);

} // namespace norma::test::meta
