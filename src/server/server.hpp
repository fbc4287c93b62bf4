// A language server (LSP 3.17) on the workspace of the command line: what an editor has open is
// checked as it is typed.
//
// The folder server/ holds how messages are framed and queued, what is open, and one file for each
// request; JSON stays in a few of its files.
#pragma once

#include <functional>

#include "live/site.hpp"
#include "server/wire.hpp"
#include "wording/wording.hpp"
#include "words/literal.hpp"

namespace norma::server {

struct Settings {
  const wording::Language* language = &wording::english();
  std::function<words::Date()> on{}; // the day that dates are held against
  live::OpenHost open_host{};        // none where no page can be shown
};

/// Answers until the editor ends it: 0 where it said so in time (`shutdown`, then `exit`), else 1.
/// One thread reads, the calling one answers; it writes alone.
int serve(const Wire& wire, const Settings& settings);

} // namespace norma::server
