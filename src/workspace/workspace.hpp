// Files that are edited and asked about: what comes of each is worked out once, and again only
// where it rests on what was changed.
//
// A workspace has revisions. A snapshot is one of them and stays as it is, whatever is edited
// meanwhile; two of one workspace, or of several, are asked side by side. Any thread may edit, any
// may ask.
#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "report/report.hpp"
#include "text/files.hpp"
#include "words/literal.hpp"
#include "workspace/cancel.hpp"
#include "workspace/stages.hpp"
#include "workspace/store.hpp"

namespace norma::workspace {

/// A file that was asked for and could not be read at all.
struct NoFile {
  std::string path;
  text::ReadError error;
};
/// Nobody waits for the answer any more: there is none, and nothing half done is kept.
struct Cancelled {};

template <class T> using Answer = std::variant<T, NoFile, Cancelled>;
template <class T> using Shared = Answer<std::shared_ptr<const T>>;

/// What is asked of protocols.
struct Ask {
  Kits kits;
  words::Date on;
  std::string root{};        // bounds what protocols may build on; "": see text::Files::root_of
  bool fingerprints = false; // of the protocols, too
  bool scene = true;         // look at the views in three dimensions
  bool plans = true;         // kept with what comes out; else what was worked out is let go
  std::string group{};       // only this group of patients: "children, mixed teeth"
  /// Only these; `children` are all of them. None: all. Who speaks of no group is looked at.
  std::vector<std::string> patients{};
};

class State;

/// One revision of the files. Copies are the same one.
class Snapshot {
 public:
  /// Grows with each edit of the workspace.
  [[nodiscard]] std::uint64_t revision() const;

  /// The text of a file and its tree.
  [[nodiscard]] Shared<Parsed> parsed(const std::string& path) const;
  /// The protocol of a file with all that it builds on.
  [[nodiscard]] Shared<Built> built(const std::string& path, const std::string& root = {},
                                    const Cancel& cancel = {}) const;
  /// Kits in the order in which they are given. Of several each has a name of its own.
  [[nodiscard]] Answer<Kits> kits(const std::vector<std::string>& paths) const;
  /// The protocols of a file held against the kits.
  [[nodiscard]] Shared<Checked> check(const std::string& path, const Ask& ask,
                                      const Cancel& cancel = {}) const;
  /// The same for whoever is its only owner; it is not kept.
  [[nodiscard]] Answer<Checked> check_once(const std::string& path, const Ask& ask,
                                           const Cancel& cancel = {}) const;
  /// All there is to say about these files.
  [[nodiscard]] Answer<report::Report> report(const std::vector<std::string>& paths, const Ask& ask,
                                              const Cancel& cancel = {}) const;
  /// Files that can be reached by several names are shown by the one that was called first.
  void call(const std::string& path) const;

 private:
  friend class Workspace;
  Snapshot(std::shared_ptr<State> state, std::shared_ptr<Store> store)
      : state_(std::move(state)), store_(std::move(store)) {}
  std::shared_ptr<State> state_;
  std::shared_ptr<Store> store_;
};

class Workspace {
 public:
  explicit Workspace(std::shared_ptr<const text::Files> files,
                     std::shared_ptr<Store> store = std::make_shared<Store>());

  [[nodiscard]] Snapshot snapshot() const;

  // Each of these makes a new revision. What they return are the files that were asked for and
  // build on the one that changed, itself with them, by the names they are shown by, in order: of
  // these there may be something new to say. (A kit is asked for by `Snapshot::kits`, and is not
  // told.)

  /// The text of a file as an editor has it; it stands before what the disk holds.
  std::vector<std::string> edit(const std::string& path, std::string text);
  /// The editor lets go of the file: the disk counts again.
  std::vector<std::string> close(const std::string& path);
  /// The file was changed on the disk, came or went.
  std::vector<std::string> changed(const std::string& path);
  /// Anything may have changed on the disk. Texts that are the same as before cost their reading.
  void refresh();

  [[nodiscard]] Counters counters() const { return store_->counters(); }

 private:
  State& next();
  mutable std::mutex mutex_;
  std::shared_ptr<State> state_;
  std::shared_ptr<Store> store_;
};

} // namespace norma::workspace
