// Every shipped protocol at every shipped chair.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "session/session.hpp"
#include "support/support.hpp"
#include "text/files.hpp"

namespace norma::test {

/// Files of a folder that end so, in the order of their names.
inline std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder,
                                                   std::string_view end) {
  std::vector<std::filesystem::path> out;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == end) out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

inline std::vector<std::filesystem::path> shipped_protocols() {
  std::vector<std::filesystem::path> out = files_in(root() / "protocols", ".norma");
  REQUIRE(out.size() > 8);
  return out;
}
inline std::vector<std::filesystem::path> shipped_kits() {
  std::vector<std::filesystem::path> out = files_in(root() / "protocols/kits", ".yaml");
  REQUIRE(out.size() > 5);
  return out;
}

/// `check` of a report and of what is held in it, for each protocol with each kit.
template <class Check> void each_shipped(const Check& check) {
  for (const std::filesystem::path& protocol : shipped_protocols()) {
    for (const std::filesystem::path& kit : shipped_kits()) {
      session::Session session;
      session.run(text::DiskFiles(), {{protocol.string()}, {kit.string()}, {2026, 11, 25}});
      for (const report::Held& held : session.report().held) {
        CAPTURE(protocol.filename().string());
        CAPTURE(kit.filename().string());
        check(session.report(), held);
      }
    }
  }
}

} // namespace norma::test
