// What a view promises, and the first of it that is broken as it stands.
#pragma once

#include <optional>
#include <vector>

#include "margins/error.hpp"

namespace norma::margins {

using physics::Tooth;

/// In the order in which a reason is looked for, what is quick to find first: the first that is
/// broken is the one that is told.
enum class Promise {
  clear,     // the mirror meets no tooth and no gum
  fits,      // and has room between the jaws and the corners of the mouth
  framed,    // all that must show is whole in the picture
  sharp,     // all that must be sharp is
  turned,    // what must show is not turned away
  in_mirror, // and does not lie beside the mirror
  seen,      // and enough of it is not hidden
  lit        // nothing that is seen lies in shadow
};
inline constexpr std::size_t promises = 8;

struct Broken {
  Promise promise = Promise::clear;
  std::vector<Tooth> teeth; // for which it is; empty of a mirror that has no room
  friend bool operator==(const Broken&, const Broken&) = default;
};

/// Holds views against what they promise.
class Judge {
 public:
  /// A mirror that as planned leans on teeth or gum may do so, or any where `may_lean`. `pieces`:
  /// as for physics::look.
  Judge(const Standing& planned, int pieces, bool may_lean = false);
  /// The first promise that is broken; nothing: all is held.
  [[nodiscard]] std::optional<Broken> broken(const Standing& stands) const;
  /// Not `broken`. `off`: what alone is off; what it cannot change is not asked anew.
  [[nodiscard]] bool holds(const Standing& stands, std::optional<Error> off = {}) const;
  /// Is this held, whatever comes of other promises and other teeth? It costs less.
  [[nodiscard]] bool holds(const Standing& stands, const Broken& only) const;

 private:
  [[nodiscard]] bool is_clear(const Standing& stands) const;
  [[nodiscard]] std::vector<placing::Shown> seen(const Standing& stands, bool and_lit) const;
  int pieces_;
  std::vector<physics::Box> hard_; // empty where the mirror may lean on them
};

} // namespace norma::margins
