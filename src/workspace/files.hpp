// The files of one revision: which texts count, and what builds on what.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

#include "text/files.hpp"
#include "workspace/stages.hpp"
#include "workspace/store.hpp"

namespace norma::workspace {

/// How the way from a protocol to what it builds on ends.
struct End {
  enum class Kind {
    none,       // it builds on nothing more
    unreadable, // what it builds on cannot be read; `error` says why
    circle,     // it leads back to a file of the way; `path`
    deep,       // it is longer than norma follows
  };
  Kind kind = Kind::none;
  std::string path{};
  text::ReadError error{};
};

/// A protocol file and what it builds on, the nearest first.
struct Chain {
  struct Link {
    text::Located at; // as it was reached
    std::shared_ptr<const Version> version;
  };
  std::vector<Link> links;
  End end;
  /// All that the protocol of each link rests on: numbers of versions, and names where a finding
  /// may tell them.
  std::vector<std::string> keys;
};

/// Where the `builds on` of a file leads.
struct Import {
  bool builds = false;
  text::LocateResult to{};
};

using Text = std::variant<std::shared_ptr<const Version>, text::ReadError>;

/// One revision. What was looked up stays looked up: a file is read once.
class State {
 public:
  explicit State(std::shared_ptr<const text::Files> files) : files_(std::move(files)) {}
  State(const State& other);
  State& operator=(const State&) = delete;
  ~State() = default;

  [[nodiscard]] const text::Files& files() const { return *files_; }
  [[nodiscard]] std::uint64_t revision() const {
    const std::lock_guard lock(mutex_);
    return known_.revision;
  }

  /// Where a file lies that somebody names, and what bounds its bases where nobody says otherwise.
  struct Place {
    std::string id;
    std::string root;
    /// The way from that root to the file: the same wherever one stands and however one types it.
    [[nodiscard]] std::string in_project() const;
  };
  Place place_of(const std::string& path);
  void call(const std::string& path);
  Text text(const text::Located& at, Store& store);

  std::optional<Import> import_of(const std::string& id, const std::string& root) const;
  void keep(const std::string& id, const std::string& root, const Import& import);
  std::shared_ptr<const Chain> chain_of(const std::string& id, const std::string& root) const;
  /// `needed`: the files of the chain, and one that is not there, where it ends at such a one.
  void keep(const std::string& root, std::shared_ptr<const Chain> chain,
            std::vector<std::string> needed);

  // By the workspace, while nobody else has this revision.
  void next_revision() {
    const std::lock_guard lock(mutex_); // orders this behind whoever let go of it last
    ++known_.revision;
  }
  // Each returns who builds on the file, by the names by which they are shown.
  /// Another text counts; null: the disk's.
  std::vector<std::string> replace(const std::string& path,
                                   std::shared_ptr<const std::string> text);
  /// The disk holds another text.
  std::vector<std::string> forget(const std::string& path);
  void forget_disk();

 private:
  template <class T> using ByRoot = std::vector<std::pair<std::string, T>>;
  using Asked = std::pair<std::string, std::string>; // its id, and the root
  struct Known {
    std::uint64_t revision = 0;
    std::unordered_map<std::string, std::shared_ptr<const std::string>> overlays; // by id, as all
    std::unordered_map<std::string, std::string> names; // by which a file is shown
    std::unordered_map<std::string, Text> texts;
    std::unordered_map<std::string, ByRoot<Import>> imports;
    std::unordered_map<std::string, ByRoot<std::shared_ptr<const Chain>>> chains;
    std::map<Asked, std::vector<std::string>> needed;       // by each file that was asked for
    std::unordered_map<std::string, std::set<Asked>> users; // the other way round
    std::unordered_map<std::string, Place> folders;         // by the name they are given
    std::unordered_map<std::string, Place> places;
  };
  std::vector<std::string> forget_text(const std::string& id);

  std::shared_ptr<const text::Files> files_;
  mutable std::mutex mutex_;
  Known known_;
};

} // namespace norma::workspace
