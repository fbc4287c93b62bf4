// Runs whose plan files the tests look at.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "emit/plan_json.hpp"
#include "planfile/planfile.hpp"
#include "session/session.hpp"
#include "support/support.hpp"
#include "text/files.hpp"

namespace norma::test {

/// The document of a run over files in memory; the first one is the protocol that is asked for.
inline planfile::Document document_of(std::vector<std::pair<std::string, std::string>> files,
                                      const std::vector<std::string>& kits, bool scene = true) {
  text::MemoryFiles memory;
  session::Request request{{files.front().first}, kits, {2026, 11, 25}};
  request.scene = scene;
  request.fingerprints = true;
  request.threads = 1;
  for (auto& [name, text] : files)
    memory.put(name, std::move(text));
  session::Session session;
  REQUIRE(!session.run(memory, request));
  return emit::plan_document(session.report(), wording::english());
}

} // namespace norma::test
