// The list of facts: one row of facts.def for each thing norma works out about a view with a kit.
#pragma once

#include <span>

#include "diag/questions.hpp"
#include "facts/choices.hpp"
#include "facts/fact.hpp"
#include "facts/scene_terms.hpp"

namespace norma::facts::fact {

using diag::List;
using diag::Said;
using diag::Teeth;
using kit::LampSide;
using kit::MirrorSurface;
using model::Side;
using physics::Kind;
using physics::Turn;
namespace question = diag::question;

/// A fact's place in the list.
enum class Place : std::uint16_t {
#define NORMA_FACT(type, name, kind, formula, source, question) name,
#include "facts/facts.def"
#undef NORMA_FACT
  count
};

#define NORMA_FACT(type, name, kind, formula, source, question)                                    \
  inline constexpr FactDef<type> name{{{"fact." #name, 0},                                         \
                                       #name,                                                      \
                                       kind,                                                       \
                                       formula,                                                    \
                                       source,                                                     \
                                       question,                                                   \
                                       static_cast<std::uint16_t>(Place::name)}};
#include "facts/facts.def"
#undef NORMA_FACT

/// All rows, in the order of the list.
std::span<const FactRow* const> all();

} // namespace norma::facts::fact
