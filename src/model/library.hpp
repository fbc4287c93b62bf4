// Protocols that build on others: files are found and read once, bases first, edits laid on them.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <variant>

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"
#include "text/files.hpp"
#include "text/source.hpp"

namespace norma::model {

/// Protocols may build on each other this deep.
inline constexpr int deepest_base = 32;
/// All protocols of one run may hold this many statements, what they take over counted.
inline constexpr std::size_t most_declared = 2000000;

class Library {
 public:
  /// `root` bounds what bases may be read; "": the folder that Files::root_of gives.
  Library(const text::Files& files, text::Sources& sources, std::string root)
      : files_(files), sources_(sources), root_(std::move(root)) {}

  /// The protocol of the file at `path` with all that it builds on, its edits made. Null where the
  /// file holds none (reported); an error where the file itself cannot be read. It holds until the
  /// next file is opened: only what others build on is kept.
  std::variant<const Declared*, text::ReadError> open(const std::string& path,
                                                      diag::Findings& findings);
  /// The same, with what there is to say about the files that were read left with them.
  std::variant<const Declared*, text::ReadError> open(const std::string& path);
  /// What there is to say about each file that was read, by its name.
  [[nodiscard]] std::map<std::string, diag::Findings*> findings();
  /// The files that a protocol that was opened is made of: its own, then what it builds on.
  [[nodiscard]] std::vector<text::FileId> made_of(const std::string& path) const;
  /// When no more are opened: hands out one that was opened and lets go of all others; the findings
  /// stay.
  Declared close(const Declared& opened);
  /// The file a protocol was read from, in the order of reading; for fingerprints and tests.
  [[nodiscard]] std::size_t files_read() const { return entries_.size(); }

 private:
  struct Entry {
    text::FileId file = text::FileId::none;
    bool reading = true; // it is being read: who asks for it now asks in a circle
    std::string base; // where in `entries_` the protocol stands that it builds on, "" for none
    bool is_base = false;
    bool let_go = false; // it held a protocol, which is read again where it is asked for
    std::optional<Declared> protocol;
    diag::Findings findings;
  };
  /// A folder as the disk has it, and what bounds the imports of its files.
  struct Folder {
    std::string real;
    std::string root;
  };
  text::Located place_of(const std::string& path, std::string& root);
  std::optional<text::ReadError> load(const text::Located& at, const std::string& root, int depth);
  void build(Declared& own, const text::Located& at, const std::string& root, int depth,
             diag::Findings& findings);

  const text::Files& files_;
  text::Sources& sources_;
  std::string root_;
  std::map<std::string, Entry> entries_;
  std::map<std::string, std::string> opened_; // by path: where in `entries_`
  Entry* last_ = nullptr;                 // of the file that was opened last
  std::map<std::string, Folder> folders_; // of opened files, as they were named
  std::size_t declared_ = 0;              // statements held
};

} // namespace norma::model
