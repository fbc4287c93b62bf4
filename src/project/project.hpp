// The file at the top of a tree of protocols (text::project_file), and what it says of each of
// them: kits, groups of patients, what is left out.
//
// The folder project/ reads it, with the tables and the reader of kits.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "diag/diagnostic.hpp"
#include "project/settings.hpp"
#include "text/files.hpp"
#include "text/source.hpp"

namespace norma::project {

// In one project file.
inline constexpr std::size_t most_kits = 200;
inline constexpr std::size_t most_folders = 1000; // and as many that are left out

/// A project file that could be read whole. A `way` is the path of a file from its folder.
class Project {
 public:
  Project(std::string path, std::string folder, Settings settings)
      : path_(std::move(path)), folder_(std::move(folder)), settings_(std::move(settings)) {}

  /// The file, as it was found.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Its folder, to be put in front of a way; "" for the current one.
  [[nodiscard]] const std::string& folder() const { return folder_; }
  /// The kits for what lies there, to be read as they are. Nothing where nobody has named any.
  [[nodiscard]] std::vector<std::string> kits_of(std::string_view way) const;
  /// The groups of patients that are looked at there; none: all.
  [[nodiscard]] std::vector<std::string> groups_of(std::string_view way) const;
  /// Is it left out where `asked` is asked for? Who names what is left out means it.
  [[nodiscard]] bool leaves_out(std::string_view way, std::string_view asked) const;
  /// What is left out, as it is written.
  [[nodiscard]] std::vector<std::string> left_out() const;
  [[nodiscard]] std::optional<FailOn> fail_on() const;
  /// The file of known findings; "" where none is named.
  [[nodiscard]] std::string baseline() const;

 private:
  [[nodiscard]] const Folder* nearest(std::string_view way, bool (*says)(const Folder&)) const;
  [[nodiscard]] std::string from_here(const std::string& way) const;

  std::string path_;
  std::string folder_;
  Settings settings_;
};

/// Why a project file cannot be gone by.
struct NotRead {
  std::string path;
  diag::Findings findings;
  text::Sources sources;
};

/// Reads the file at `path` with all that it names: each must be there, below its folder, and what
/// it is taken for. Nothing but that is read.
std::variant<Project, NotRead> read_project(const text::Files& files, const std::string& path);

/// The same of a file's text, by itself: what it names is not looked at.
Settings read_settings(text::FileId id, std::string_view bytes, diag::Findings& findings);

} // namespace norma::project
