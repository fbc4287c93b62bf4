// The fingerprint of a resolved protocol: two protocols that ask for the same have the same,
// however they are written. docs/language.md gives the canonical form; tests hold vectors of it.
#pragma once

#include <optional>
#include <string>

#include "model/declared.hpp"

namespace norma::model {

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

Canonical canonical(const Declared& declared, const std::optional<Group>& group);
Fingerprint fingerprint(const Declared& declared, const std::optional<Group>& group);

} // namespace norma::model
