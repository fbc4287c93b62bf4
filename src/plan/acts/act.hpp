// What is done at the chair: who does what to what, how, and when. Typed; the words stand in
// src/wording.
#pragma once

#include <cstddef>
#include <vector>

#include "diag/sentence.hpp"

namespace norma::plan {

enum class Who {
#define NORMA_WHO(name, key) name,
#include "plan/acts/acts.def"
};

enum class Verb {
#define NORMA_ACT(verb, objects) verb,
#include "plan/acts/acts.def"
};

/// Measured by the picture: what is done at it is done just before the shot.
enum class When { before, at, after };

/// One thing to do.
struct Act {
  Who who = Who::operator_;
  Verb verb = Verb::as_protocol_says;
  std::vector<diag::Value> objects; // as many as the verb has
  std::vector<diag::Said> how;      // its details, in their order
  When when = When::before;
};

namespace detail {
inline constexpr diag::Row whos[] = {
#define NORMA_WHO(name, key) {key, 0},
#include "plan/acts/acts.def"
};
inline constexpr diag::Row verbs[] = {
#define NORMA_ACT(verb, objects) {"act." #verb, objects},
#include "plan/acts/acts.def"
};
} // namespace detail

constexpr const diag::Row& row_of(Who who) { return detail::whos[static_cast<std::size_t>(who)]; }
constexpr const diag::Row& row_of(Verb verb) {
  return detail::verbs[static_cast<std::size_t>(verb)];
}

namespace how {
#define NORMA_HOW(name, arguments) inline constexpr diag::Sentence<arguments> name{"how." #name};
#include "plan/acts/acts.def"
} // namespace how

namespace object {
#define NORMA_OBJECT(name, arguments)                                                              \
  inline constexpr diag::Sentence<arguments> name{"object." #name};
#include "plan/acts/acts.def"
} // namespace object

} // namespace norma::plan
