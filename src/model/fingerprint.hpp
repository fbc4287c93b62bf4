// The fingerprint of a resolved protocol: two protocols that ask for the same have the same,
// however they are written. docs/language.md gives the canonical form; tests hold vectors of it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/declared.hpp"

namespace norma::model {

/// Of the canonical form, which the digests are taken of.
inline constexpr int fingerprint_edition = 2;

/// SHA-256 in hexadecimal digits.
struct Fingerprint {
  std::string pictures;   // of what shapes the pictures
  std::string everything; // of all but revision, dates and reasons
};

/// What the digests are taken of, as text.
struct Canonical {
  std::string pictures;
  std::string everything;
};

/// Of a protocol for all groups of patients that it speaks of: what `as of` names. That of
/// everything where there is one group.
std::string fingerprint_of_all(const Declared& declared);
/// So much of it is enough to be told by, and is written by `norma follow`.
inline constexpr std::size_t short_fingerprint = 16;
/// May a text be one, or the first part of one?
bool is_fingerprint(std::string_view text);

Canonical canonical(const Declared& declared, const std::optional<Group>& group);
Fingerprint fingerprint(const Declared& declared, const std::optional<Group>& group);

} // namespace norma::model
