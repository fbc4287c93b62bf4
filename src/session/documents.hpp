// Protocols as documents: shown with all resolved, and laid out anew. No kit, no plan.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "session/session.hpp"
#include "text/files.hpp"
#include "text/source.hpp"

namespace norma::session {

/// A file, what norma makes of it, and what there is to say about it.
struct DocumentRun {
  report::Report report;                     // its sources and findings
  std::optional<std::string> made;           // nothing where the file does not allow it
  std::optional<text::ReadError> unreadable; // the file itself
  std::vector<std::string> groups;           // the groups the protocol speaks of
};

/// How a protocol is shown: each line with where it comes from, or so that only what it asks for
/// makes a difference.
enum class Showing { with_places, plain };

/// The protocol of `path` with all resolved, for `group` ("": the first it speaks of; plainly: one
/// after the other). Plainly there is always something to show: what cannot be resolved stands as
/// it is written.
std::unique_ptr<DocumentRun> show(const text::Files& files, const std::string& path,
                                  const std::string& root, const std::string& group,
                                  const std::vector<Overlay>& overlays = {},
                                  Showing showing = Showing::with_places);

/// A protocol that is made for what it builds on as that is now.
struct Followed {
  std::string base; // its name
  std::string was;  // the fingerprint that stood there, "" for none
  std::string now;
  std::string text; // of the file, with the new one
};
/// `made` of the run is that text; `followed` is nothing where the protocol builds on none, or
/// where its base cannot be read (reported).
struct FollowRun {
  std::unique_ptr<DocumentRun> run;
  std::optional<Followed> followed;
};
FollowRun follow(const text::Files& files, const std::string& path, const std::string& root);

/// The file in the one layout. Nothing where the parser made a finding: then nobody knows what the
/// writer meant, and the file stays as it is.
std::unique_ptr<DocumentRun> tidy(const text::Files& files, const std::string& path,
                                  const std::vector<Overlay>& overlays = {});

} // namespace norma::session
