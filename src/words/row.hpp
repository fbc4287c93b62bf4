// How a row of the word table is put together.
#pragma once

#include <span>
#include <string_view>

#include "words/vocabulary.hpp"

namespace norma::words {

/// A row under construction: what is not said of it is the usual.
struct Row : Word {
  constexpr Row(std::string_view name_, unsigned places_, std::span<const Clause> clauses_,
                Effect effect_, std::string_view help_, std::string_view example_)
      : Word{} {
    name = name_;
    places = places_;
    clauses = clauses_;
    effect = effect_;
    help = help_;
    example = example_;
  }
  /// Any number of them in a block; a mention replaces all that is inherited.
  constexpr Row list() const {
    Row r = *this;
    r.repeat = Repeat::list;
    return r;
  }
  constexpr Row keyed(std::string_view keys) const {
    Row r = *this;
    r.repeat = Repeat::keyed;
    r.key = keys;
    return r;
  }
  /// Left and right change over in a view for the other side.
  constexpr Row sides() const {
    Row r = *this;
    r.other_side = Crossing::maps;
    return r;
  }
  /// Upper and lower change over in a view for the other jaw.
  constexpr Row jaws() const {
    Row r = *this;
    r.other_jaw = Crossing::maps;
    return r;
  }
  /// Does not cross to the other jaw.
  constexpr Row own_jaw() const {
    Row r = *this;
    r.other_jaw = Crossing::stays;
    return r;
  }
  /// In a view of the face a change of it means something else.
  constexpr Row of_face(Effect effect_) const {
    Row r = *this;
    r.effect_of_face = effect_;
    return r;
  }
  /// Structures a file: opens a part of this level (1 file, 2 protocol, 3 view).
  constexpr Row part(int level_, bool block_) const {
    Row r = *this;
    r.level = level_;
    r.block = block_;
    return r;
  }
  /// What stands behind `no` in place of the name, where `no` and the name do not read.
  constexpr Row without(std::string_view absence_) const {
    Row r = *this;
    r.absence = absence_;
    return r;
  }
  constexpr Row also_written(std::string_view others) const {
    Row r = *this;
    r.synonyms = others;
    return r;
  }
};

} // namespace norma::words
