// What the page shows beside the view itself, as JSON.
#pragma once

#include <string>
#include <vector>

#include "emit/json.hpp"
#include "live/shown.hpp"

namespace norma::live {

struct State {
  std::uint64_t revision = 0;
  std::string title; // where there is no protocol
  const std::vector<ShownView>* views = nullptr;
  const report::Report* report = nullptr; // of the text as it is; null where there is none
  const std::vector<std::size_t>* begins = nullptr; // the first view of each `held` of the report
  diag::Said status;
  std::string changed; // key of the view that was edited last
  std::uint64_t changes = 0;
};

std::string state_json(const State& state, const wording::Language& in);

/// In one line; nothing in it can act on a terminal.
std::string in_one_line(const emit::Json& json);

/// A place of a protocol as one of the report.
text::Span in_report(const report::Report& report, const report::Held& held, text::Span span);

} // namespace norma::live
