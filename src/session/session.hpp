// The pipeline, once: files in; protocols, kits, plans and findings out. The one seam for the
// command line, editors, tests and fuzzers.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "plan/plan.hpp"
#include "report/report.hpp"
#include "text/files.hpp"
#include "text/source.hpp"
#include "words/literal.hpp"

namespace norma::session {

struct Request {
  std::vector<std::string> protocols;
  std::vector<std::string> kits;
  words::Date on;
  std::string root{};        // bounds what protocols may build on; "": see Files::root_of
  bool fingerprints = false; // of the protocols, too
  bool scene = true;         // look at the views in three dimensions
  std::string group{};       // only this group of patients: "children, mixed teeth"
  unsigned threads = 0;      // at most so many; 0: as many as the machine has
  /// Told now and then how many of the protocols are done; called by the thread that runs.
  std::function<void(std::size_t done)> progress{};
};

/// A file that could not be read at all; the run stops before it starts.
struct NoFile {
  std::string path;
  text::ReadError error;
};

class Numbering;
class Worker;

class Session {
 public:
  explicit Session(const text::Files& files);
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  ~Session();

  /// Reads everything, works every protocol out against every kit, applies the rules. Nothing where
  /// all files could be read; else the first that could not. What comes out does not depend on the
  /// number of threads.
  std::optional<NoFile> run(const Request& request);

  /// The file that has nothing for the group that was asked for, "" where there is none.
  [[nodiscard]] const std::string& no_group() const { return no_group_; }
  /// What came of the last run.
  [[nodiscard]] const report::Report& report() const { return report_; }

 private:
  void tell_kits_apart(const Request& request);
  void work(const Request& request);
  std::optional<NoFile> gather(const Request& request);
  void settle_exceptions(const Numbering& number);
  void ask_what_holds_for_all();

  const text::Files& files_;
  report::Report report_;
  std::vector<std::unique_ptr<kit::Kit>> kits_;
  plan::WorkCache cache_;
  std::vector<std::unique_ptr<Worker>> workers_;
  std::string no_group_;
};

} // namespace norma::session
