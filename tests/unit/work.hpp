// Protocols and kits from memory, worked out; what the unit tests share.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "session/session.hpp"
#include "support/support.hpp"
#include "text/files.hpp"

namespace norma::test {

/// A finished run over texts; files are called p.norma and k.yaml.
struct Work {
  text::MemoryFiles files;
  std::unique_ptr<session::Session> session;

  explicit Work(std::string protocol, std::string kit = {}) {
    files.put("p.norma", std::move(protocol));
    session::Request request{{"p.norma"}, {}, {2026, 11, 25}};
    if (!kit.empty()) {
      files.put("k.yaml", std::move(kit));
      request.kits.push_back("k.yaml");
    }
    session = std::make_unique<session::Session>();
    session->run(files, request);
  }

  /// The codes of all findings, in order.
  [[nodiscard]] std::vector<std::string> codes() const {
    std::vector<std::string> out;
    for (const auto& d : session->report().findings.all())
      out.emplace_back(d.definition->code);
    return out;
  }
  [[nodiscard]] std::size_t count(std::string_view code) const {
    std::size_t n = 0;
    for (const auto& d : session->report().findings.all())
      n += d.definition->code == code ? 1 : 0;
    return n;
  }
  /// Of these the ones that come up in the mean mouth, and not in some others alone.
  [[nodiscard]] std::size_t in_mean(std::string_view code) const {
    std::size_t n = 0;
    for (const auto& d : session->report().findings.all()) {
      const bool others = std::any_of(d.notes.begin(), d.notes.end(), [](const diag::Said& note) {
        return note.row != nullptr &&
               note.row->id.find("not_in_mean_mouth") != std::string_view::npos;
      });
      n += d.definition->code == code && !others ? 1 : 0;
    }
    return n;
  }
  [[nodiscard]] const plan::ViewPlan& view(std::string_view name) const {
    return *session->report().held.front().plan.view(name);
  }
};

/// A fact in words; "" where it has no value.
std::string said(const plan::Facts& facts, const plan::FactRow& row);
/// An act as the checklist has it: `Patient: teeth together`.
std::string said(const plan::Act& act);

inline std::string five() { return read_file(root() / "protocols/five.norma"); }
inline std::string chair(int number) {
  return read_file(root() / "protocols/kits" / ("chair_" + std::to_string(number) + ".yaml"));
}
/// `text` with its first `from` replaced; a `from` that is not there fails the test.
std::string changed(std::string text, std::string_view from, std::string_view to);

} // namespace norma::test
