// What comes of a file, stage by stage. Each is made once, never changed, and shared by all who ask
// for it, on whichever thread.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "model/declared.hpp"
#include "model/protocol.hpp"
#include "report/report.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::workspace {

/// One text of one file. The same file with other bytes is another version with another number, and
/// no number is given twice: what stands in a result is found by it.
struct Version {
  text::FileId id = text::FileId::none;
  std::shared_ptr<const text::Source> source; // by the name under which it is shown
};

/// A file, by the one name it has on the disk, and what there is to say about the file itself.
struct File {
  std::string id;
  std::shared_ptr<const Version> version;
  std::shared_ptr<const diag::Findings> findings;
  std::string in_project; // its path, wherever one stands: see State::Place
  std::string protocol;   // its name; "" where the file holds none
};

struct Parsed {
  std::shared_ptr<const Version> version;
  syntax::Tree tree;
  diag::Findings findings;
};

/// What the file alone declares.
struct DeclaredFile {
  std::shared_ptr<const Version> version;
  std::shared_ptr<const model::Declared> protocol; // null where it holds none (reported)
  diag::Findings findings;                         // the parser's with them
};

/// A protocol with all that it builds on, its edits made.
struct Built {
  std::vector<File> files; // itself, then what it builds on, the nearest first
  std::shared_ptr<const model::Declared> protocol; // null where the file holds none (reported)
  std::size_t statements = 0;                      // of it and of what it builds on
};

/// The typed protocol for each group of patients that was asked for.
struct Resolved {
  std::vector<File> files;
  std::vector<std::shared_ptr<const model::Protocol>> protocols;
  std::vector<std::string> groups; // that the protocol speaks of
  bool no_group = false;           // it says nothing for the group that was asked for
  diag::Findings findings;         // about the protocols; what is about files stands with these
};

struct KitRead {
  std::string path; // as it was asked for
  std::string id;   // as of a File
  std::string in_project;
  std::string known_as; // the name it gives itself, else `in_project`
  std::shared_ptr<const Version> version;
  std::shared_ptr<const kit::Kit> kit;
  std::shared_ptr<const diag::Findings> findings;
  std::uint64_t number = 0; // of this reading
};
using Kits = std::vector<std::shared_ptr<const KitRead>>;

/// An exception, and what came of it in one protocol file.
struct Tried {
  diag::Subject about{}; // the protocol, and the view or series, without a kit
  std::string finding;   // its name
  std::string view;      // as in model::Exception
  std::string series;
  std::vector<std::string> kits;      // as in model::Exception
  std::optional<words::Date> ran_out; // the day until which it held
  bool met = false;                   // its finding comes up
  bool kit_given = false;             // it speaks of this kit, or of none
  diag::Said missing{};               // of what was not checked in its view, empty where all was
  text::Span span;
};

/// A protocol file held against every kit that was asked for. Subjects name it as file 0.
struct Checked {
  std::shared_ptr<const Resolved> resolved;
  Kits kits;
  std::vector<report::Held> held;
  diag::Findings findings; // about the protocols; those about files stand in `resolved->files`
  std::vector<report::NotChecked> not_checked;
  std::vector<Tried> exceptions; // in the order of their places
};

} // namespace norma::workspace
