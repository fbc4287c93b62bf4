// The file of known findings: what was found on some day and is lived with until it is mended.
// Written and read; what stands here is the format, and docs/schema/known.schema.json is made from
// `fields`.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace norma::project {

/// One finding. It is found again by `id` (emit/told.hpp); the rest is for people, and says which
/// run could find it.
struct Known {
  std::string file;
  std::string code;
  std::string protocol;
  std::string group;
  std::string view;
  std::string series;
  std::string kit;
  std::string severity;
  std::string what;
  std::string id;

  template <class A, class S> static void fields(A& a, S& s) {
    a("file", s.file, true, "the way to it from the folder of the project file");
    a("code", s.code, true, "such as P003; `norma explain P003` says what it means");
    a("protocol", s.protocol, false, "its name; left out of what is said of a file or a kit alone");
    a("group", s.group, false, "the group of patients, where the protocol speaks of several");
    a("view", s.view, false, "its name");
    a("series", s.series, false, "its name");
    a("kit", s.kit, false, "the kit that it was held against, by its name");
    a("severity", s.severity, true, "error, warning or advice");
    a("what", s.what, true, "what it says, in words; for who reads this file");
    a("id", s.id, true, "16 hexadecimal digits: those of `norma check --format json`");
  }
  friend auto operator<=>(const Known&, const Known&) = default;
};

/// What marks such a file, and its edition.
inline constexpr std::string_view known_mark = "norma known findings";
inline constexpr std::size_t largest_known_file = 8u << 20u;
inline constexpr std::size_t most_known = 30000;

/// JSON, one finding a line, sorted: two people who write it change few lines that are the same.
std::string known_text(std::vector<Known> all);

/// Why it cannot be read, and the line where that is (0: none).
struct KnownError {
  std::size_t line = 0;
  std::string why;
};
std::variant<std::vector<Known>, KnownError> read_known(std::string_view bytes);

/// What came of holding a run against such a file.
struct HeldAgainst {
  std::string path;        // the file, as it is shown
  std::vector<Known> gone; // what stands in it and was not found, though it was looked for
  std::string folder;      // of the project within its repository, for hosts: "" or "a/b/"
};

} // namespace norma::project
