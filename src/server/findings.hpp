// Findings as an editor shows them: places in its files, the sentences of `norma check`.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "server/position.hpp"
#include "wording/wording.hpp"

namespace norma::server {

struct Place {
  std::string path;
  Range range;
  friend auto operator<=>(const Place&, const Place&) = default;
};

struct Edit {
  Place place;
  std::string text;
  bool safe = false;  // means what the writer meant for certain
  std::string before; // what stands there now
  friend auto operator<=>(const Edit&, const Edit&) = default;
};

struct Related {
  Place place;
  std::string text;
  friend auto operator<=>(const Related&, const Related&) = default;
};

/// How grave it is, by the numbers of the protocol; one that is accepted is a hint.
enum class Grave { error = 1, warning, information, hint };

struct Told {
  Range range;
  Grave grave = Grave::error;
  std::string code; // P003
  std::string message;
  std::vector<Related> related;
  std::vector<Edit> edits; // each would mend it
  friend auto operator<=>(const Told&, const Told&) = default;
};

/// By the paths of the files that they stand in; those that stand nowhere, in `path`.
std::map<std::string, std::vector<Told>>
told_of(const report::Report& report, const std::string& path, const wording::Language& language,
        Encoding encoding, const std::function<bool(const std::string& path)>& is_open);

} // namespace norma::server
