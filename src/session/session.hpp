// The pipeline, once: files in; protocols, kits, plans and findings out. It asks a workspace for
// all files of a request, on several threads, and lets go of each thing as soon as nothing needs
// it.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "text/files.hpp"
#include "words/literal.hpp"
#include "workspace/workspace.hpp"

namespace norma::session {

/// A text that stands before what the disk holds under its name: what came in by a pipe.
struct Overlay {
  std::string path;
  std::string text;
};

/// What holds for one protocol of many.
struct Own {
  std::vector<std::size_t> kits;     // places in Request::kits
  std::vector<std::string> patients; // as of workspace::Ask
  friend bool operator==(const Own&, const Own&) = default;
};

struct Request {
  std::vector<std::string> protocols;
  std::vector<std::string> kits;
  words::Date on;
  std::string root{};        // bounds what protocols may build on; "": see Files::root_of
  bool fingerprints = false; // of the protocols, too
  bool scene = true;         // look at the views in three dimensions
  bool plans = true;         // in the report; what is said of them is there without
  std::string group{};       // only this group of patients: "children, mixed teeth"
  bool all_findings = false; // as many as are kept, not those alone that are shown
  unsigned threads = 0;      // at most so many; 0: as many as the machine has
  std::vector<Overlay> overlays{};
  std::vector<Own> own{}; // for each of the protocols; empty: all kits and groups for each
  /// Told now and then how many of the protocols are done; called by the thread that runs.
  std::function<void(std::size_t done)> progress{};
};

/// Threads to work on: as many as are asked for (0: as the machine has), 16 at most.
unsigned threads_for(unsigned asked);

/// What it asks of each protocol, with kits that were read.
workspace::Ask ask_of(const Request& request, workspace::Kits kits);

using workspace::NoFile;

class Session {
 public:
  Session();

  /// Reads everything, works every protocol out against every kit, applies the rules. Nothing where
  /// all files could be read; else the first that could not. What comes out does not depend on the
  /// number of threads, or on what was run before. `files` are read only while it runs.
  std::optional<NoFile> run(const text::Files& files, const Request& request);

  /// The files that have nothing for the group that was asked for.
  [[nodiscard]] const std::vector<std::string>& no_group() const { return no_group_; }
  /// What came of the last run; it holds all that it names.
  [[nodiscard]] const report::Report& report() const { return report_; }
  /// The same, for who changes it: nothing is left here.
  [[nodiscard]] report::Report take_report() { return std::move(report_); }
  [[nodiscard]] workspace::Counters counters() const { return store_->counters(); }

 private:
  std::shared_ptr<workspace::Store> store_;
  report::Report report_;
  std::vector<std::string> no_group_;
};

} // namespace norma::session
