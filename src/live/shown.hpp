// What the page shows of one state of the texts: the views that there are, what was found, and each
// view's drawings and settings, made when they are asked for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::live {

/// So many views are listed, and so many findings told.
inline constexpr std::size_t most_views = 500;
inline constexpr std::size_t most_findings = 200;

/// A view, and the report that it is drawn from.
struct ShownView {
  std::string name;
  std::string title;
  std::string of; // group of patients and kit, where there are several
  std::optional<diag::Severity> worst;
  bool old = false;    // drawn from the last text of it that could be read
  bool unread = false; // something of it could not be read, and there is no older text
  std::shared_ptr<const report::Report> report;
  std::size_t held = 0;    // of `report`
  std::size_t view = 0;    // of its plan
  std::uint64_t since = 0; // revision of the state that `report` came with

  /// Stays the same from text to text.
  [[nodiscard]] std::string key() const { return name + "\n" + of; }
};

/// One state. It stays as it is; any thread may ask.
class Shown {
 public:
  /// A page that has nothing to show yet, and why.
  Shown(std::string path, const diag::Said& status, const wording::Language& in);

  /// All but the drawings, as JSON in one line: docs/live.md.
  [[nodiscard]] const std::string& state() const { return state_; }
  /// One view, as JSON in one line; nothing where there is none of that number.
  [[nodiscard]] std::optional<std::string> view(std::size_t number) const;
  [[nodiscard]] std::uint64_t revision() const { return revision_; }
  [[nodiscard]] const std::vector<ShownView>& views() const { return views_; }

 private:
  friend class Keeper;
  Shown() = default;
  [[nodiscard]] std::string drawn(std::size_t number) const;

  const wording::Language* in_ = nullptr;
  std::uint64_t revision_ = 0;
  std::vector<ShownView> views_;
  std::string state_;
  mutable std::mutex mutex_;
  mutable std::map<std::size_t, std::string> made_;
};

/// Makes a state of each text, and keeps what of the ones before can still be shown: where a text
/// cannot be read, its last picture stays, and is marked.
class Keeper {
 public:
  Keeper(std::string path, const wording::Language& in);

  /// Of a report about that one file.
  std::shared_ptr<const Shown> next(std::shared_ptr<const report::Report> report);
  /// A file cannot be read at all: all stays, marked.
  std::shared_ptr<const Shown> lost(const diag::Said& why);
  [[nodiscard]] const std::shared_ptr<const Shown>& now() const { return now_; }

 private:
  [[nodiscard]] std::vector<ShownView> views_of(const std::shared_ptr<const report::Report>& report,
                                                std::vector<std::size_t>& begins) const;
  void keep_old(std::vector<ShownView>& views, const report::Report& report) const;
  void note_change(const report::Report& report, const std::vector<ShownView>& views);
  std::shared_ptr<const Shown> put(std::vector<ShownView> views, const report::Report* report,
                                   const std::vector<std::size_t>& begins, const diag::Said& why);

  std::string path_;
  const wording::Language& in_;
  std::shared_ptr<const Shown> now_;
  std::shared_ptr<const report::Report> last_; // that there was
  std::string changed_{};                      // key of the view edited last
  std::uint64_t changes_ = 0;
};

} // namespace norma::live
