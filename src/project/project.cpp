#include "project/project.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "kit/reader.hpp"

namespace norma::project {
namespace {

namespace fs = std::filesystem;
using kit::Reader;
using kit::Yaml;
using Kind = text::ReadError::Kind;

/// A path as it is compared: no `.` in it, no slash at its end.
std::string plain(const std::string& path) {
  std::string out = fs::path(path).lexically_normal().generic_string();
  while (out.size() > 1 && out.ends_with('/'))
    out.pop_back();
  return out;
}

bool lies_in(std::string_view way, std::string_view folder) {
  return way == folder ||
         (way.starts_with(folder) && way.size() > folder.size() && way[folder.size()] == '/');
}

/// Holds what a project file names against the files that there are.
class Checker {
 public:
  Checker(const text::Files& files, const std::string& path, std::string folder,
          diag::Findings& findings)
      : files_(files), path_(path), folder_(std::move(folder)), reader_(findings) {}

  void check(const Settings& s) {
    if (s.kits) check_kits(*s.kits);
    if (s.leave_out) {
      const bool many =
          too_many(s.leave_out->size(), most_folders, "what is left out", *s.leave_out);
      for (const auto& left : *s.leave_out)
        if (!many) lies_below(left);
    }
    check_baseline(s.baseline);
    if (s.folders.size() > most_folders) {
      wrong(s.folders.front().folder, fmt::format("at most {} folders are named", most_folders));
      return;
    }
    std::set<std::string> seen;
    for (const Folder& folder : s.folders) {
      check_folder(folder.folder, seen);
      if (folder.kits) check_kits(*folder.kits);
    }
  }

 private:
  void wrong(const Sourced<std::string>& at, std::string_view why) {
    Yaml y;
    y.kind = Yaml::Kind::scalar;
    if (at.known()) y.text = at.get();
    y.span = at.span();
    reader_.wrong(y, why);
  }

  bool too_many(std::size_t count, std::size_t most, std::string_view what, const Paths& all) {
    if (count <= most) return false;
    wrong(all[most], fmt::format("{}: at most {} are named", what, most));
    return true;
  }

  /// Where it lies; nothing where it leads out of the project (reported).
  std::optional<text::Located> located(const Sourced<std::string>& at) {
    auto found = files_.locate(path_, at.get(), folder_);
    if (auto* there = std::get_if<text::Located>(&found)) return std::move(*there);
    const auto& error = std::get<text::ReadError>(found);
    wrong(at, error.kind == Kind::outside
                  ? "it leads out of the folder of the project file, where all that it names lies"
                  : error.why);
    return std::nullopt;
  }

  void missing(const Sourced<std::string>& at, const text::ReadError& error) {
    wrong(at, error.kind == Kind::missing
                  ? "there is no such file or folder; the way starts at the project file"
                  : error.why);
  }

  /// A file or a folder.
  void lies_below(const Sourced<std::string>& at) {
    if (!at.known()) return;
    const auto there = located(at);
    if (!there) return;
    const auto read = files_.read(there->path);
    const auto* error = std::get_if<text::ReadError>(&read);
    if (error != nullptr && error->kind == Kind::missing) missing(at, *error);
  }

  void check_folder(const Sourced<std::string>& at, std::set<std::string>& seen) {
    if (!at.known()) return;
    const std::string way = plain(at.get());
    if (way == ".")
      return wrong(at, "it is the folder of the project file itself; what holds for all of it "
                       "stands at the start of a line, not below `folders`");
    const auto there = located(at);
    if (!there) return;
    const auto read = files_.read(there->path);
    const auto* error = std::get_if<text::ReadError>(&read);
    if (error == nullptr) return wrong(at, "it is a file, and a folder is wanted");
    if (error->kind != Kind::folder) return missing(at, *error);
    if (!seen.insert(way).second) wrong(at, "this folder stands above already");
  }

  void check_kits(const Paths& kits) {
    for (const auto& kit : kits) {
      if (kits_.size() == most_kits && kits_.count(plain(kit.get())) == 0)
        return wrong(kit, fmt::format("a project has at most {} kits", most_kits));
      check_kit(kit);
    }
  }

  void check_kit(const Sourced<std::string>& at) {
    const std::string way = plain(at.get());
    if (!kits_.insert(way).second) return;
    const auto there = located(at);
    if (!there) return;
    const auto read = files_.read(there->path);
    if (const auto* error = std::get_if<text::ReadError>(&read)) return missing(at, *error);
    // What is wrong inside a kit is told where it is read.
    diag::Findings of_kit;
    const auto tree = kit::read_yaml(text::FileId::none, std::get<std::string>(read), of_kit, "");
    const bool by_name = way.ends_with(".yaml") || way.ends_with(".yml");
    if (!tree && by_name) return;
    const auto entry = [&](std::string_view key) -> const kit::YamlEntry* {
      if (!tree) return nullptr;
      const auto found = std::find_if(tree->entries.begin(), tree->entries.end(),
                                      [&](const auto& one) { return one.key == key; });
      return found == tree->entries.end() ? nullptr : &*found;
    };
    if (entry("norma kit") == nullptr)
      return wrong(at, "it is no kit: a kit starts with `norma kit: 1`");
    const kit::YamlEntry* name = entry("name");
    if (name == nullptr || name->value.kind != Yaml::Kind::scalar) return;
    const auto [other, fresh] = names_.emplace(name->value.text, way);
    if (!fresh)
      wrong(at, fmt::format("it has the same name as `{}` ({}): findings and exceptions tell kits "
                            "apart by their names",
                            kit::excerpt(other->second), kit::excerpt(name->value.text)));
  }

  void check_baseline(const Sourced<std::string>& at) {
    if (!at.known()) return;
    if (!at.get().ends_with(".json"))
      return wrong(at, "the file of known findings is called something that ends in `.json`");
    located(at);
  }

  const text::Files& files_;
  const std::string& path_;
  std::string folder_;
  Reader reader_;
  std::set<std::string> kits_;
  std::map<std::string, std::string> names_; // of kits, and the way to each
};

} // namespace

Settings read_settings(text::FileId id, std::string_view bytes, diag::Findings& findings) {
  Settings out;
  const auto tree =
      kit::read_yaml(id, bytes, findings, "a project file starts with `norma project: 1`");
  if (!tree) return out;
  Reader reader(findings);
  if (kit::other_edition(reader, *tree, "norma project", "project files", 1)) return out;
  kit::read_section(reader, *tree, project_section(), out);
  return out;
}

std::variant<Project, NotRead> read_project(const text::Files& files, const std::string& path) {
  NotRead broken{path, {}, {}};
  const std::string folder = path.substr(0, files.name_begins(path));
  // A link may lead anywhere.
  const auto located = files.locate(path, path.substr(folder.size()), folder);
  const auto* there = std::get_if<text::Located>(&located);
  const text::ReadResult bytes = there != nullptr
                                     ? files.read(there->path)
                                     : text::ReadResult(std::get<text::ReadError>(located));
  const text::FileId id = broken.sources.add(
      path, std::holds_alternative<std::string>(bytes) ? std::get<std::string>(bytes) : "");
  if (const auto* error = std::get_if<text::ReadError>(&bytes)) {
    broken.findings.add(diag::make(
        diag::catalogue::not_yaml, {id, 0, 0},
        error->kind == Kind::outside ? "it is a link that leads out of its folder" : error->why));
    return broken;
  }
  Settings settings = read_settings(id, std::get<std::string>(bytes), broken.findings);
  if (broken.findings.empty()) Checker(files, path, folder, broken.findings).check(settings);
  broken.findings.settle();
  if (!broken.findings.empty()) return broken;
  return Project(path, folder, std::move(settings));
}

const Folder* Project::nearest(std::string_view way, bool (*says)(const Folder&)) const {
  const Folder* best = nullptr;
  std::size_t longest = 0;
  for (const Folder& folder : settings_.folders) {
    const std::string name = plain(folder.folder.get());
    if (!says(folder) || !lies_in(way, name) || name.size() < longest) continue;
    best = &folder;
    longest = name.size();
  }
  return best;
}

std::string Project::from_here(const std::string& way) const {
  return folder_.find(':') == std::string::npos
             ? fs::path(folder_ + way).lexically_normal().string()
             : folder_ + plain(way); // of a revision
}

std::vector<std::string> Project::kits_of(std::string_view way) const {
  const Folder* folder = nearest(way, [](const Folder& f) { return f.kits.has_value(); });
  const auto& kits = folder != nullptr ? folder->kits : settings_.kits;
  std::vector<std::string> out;
  for (const auto& kit : kits.value_or(Paths{}))
    out.push_back(from_here(kit.get()));
  return out;
}

std::vector<std::string> Project::groups_of(std::string_view way) const {
  const Folder* folder = nearest(way, [](const Folder& f) { return !f.groups.empty(); });
  std::vector<std::string> out;
  for (const Patients group : folder != nullptr ? folder->groups : settings_.groups)
    out.emplace_back(to_text(group));
  return out;
}

bool Project::leaves_out(std::string_view way, std::string_view asked) const {
  const Paths all = settings_.leave_out.value_or(Paths{});
  return std::any_of(all.begin(), all.end(), [&](const auto& left) {
    const std::string name = plain(left.get());
    return lies_in(way, name) && !lies_in(asked, name);
  });
}

std::vector<std::string> Project::left_out() const {
  std::vector<std::string> out;
  for (const auto& left : settings_.leave_out.value_or(Paths{}))
    out.push_back(left.get());
  return out;
}

std::optional<FailOn> Project::fail_on() const {
  return settings_.fail_on.known() ? std::optional(settings_.fail_on.get()) : std::nullopt;
}

std::string Project::baseline() const {
  return settings_.baseline.known() ? from_here(settings_.baseline.get()) : "";
}

} // namespace norma::project
