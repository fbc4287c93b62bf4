// Two trees of protocols, or two kits, held against each other: which file is which, and what
// changed. What is the same on both sides is not worked out.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "review/compare.hpp"
#include "session/session.hpp"
#include "text/files.hpp"

namespace norma::session {

/// A protocol file, and what it is called below the folder that was named.
struct Named {
  std::string path;
  std::string name;
};

struct CompareRequest {
  std::vector<Named> before;
  std::vector<Named> after;
  std::vector<std::string> kits_before; // as many as after
  std::vector<std::string> kits_after;
  words::Date on;
  std::string root_before{}; // bounds what protocols may build on; "": see Files::root_of
  std::string root_after{};
  std::string group{};
  bool scene = true;
};

/// A kit that cannot be read as one.
struct NoKit {
  std::string path;
};
/// No protocol of either side has anything for the group that was asked for.
struct NoGroup {};

struct Compared {
  review::Comparison comparison;
  workspace::Counters counters; // of both sides together
};

using CompareAnswer = std::variant<Compared, NoFile, NoKit, NoGroup>;

/// The files of each side are read from its own `Files`; what a protocol builds on, too.
CompareAnswer compared(const text::Files& before, const text::Files& after,
                       const CompareRequest& request);

} // namespace norma::session
