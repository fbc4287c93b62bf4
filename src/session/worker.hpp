// What one thread does of a run: some of the protocols, each against every kit.
#pragma once

#include <map>

#include "model/declared.hpp"
#include "model/library.hpp"
#include "session/session.hpp"

namespace norma::session {

/// What came of one protocol file.
struct Share {
  std::size_t index = 0; // in the request
  std::vector<const model::Protocol*> protocols; // one for each group that was asked for
  std::vector<text::FileId> read;                // the files they are made of
  diag::Findings findings;
  std::vector<report::NotChecked> not_checked;
  std::vector<report::Held> held;
  std::optional<NoFile> no_file;
  bool no_group = false;
};

class Worker {
 public:
  struct Tried {
    const model::Exception* exception = nullptr;
    diag::Subject about{}; // the protocol, and the view or series, without a kit
    bool met = false;
    diag::Said missing{}; // of what was not checked in its view, empty where all was
  };

  /// `kits` are the first files of `sources`, in the same order here.
  Worker(const text::Files& files, const text::Sources& sources, const Request& request,
         const std::vector<std::unique_ptr<kit::Kit>>& kits, plan::WorkCache& cache);

  /// The protocol file at `index` of the request.
  void take(std::size_t index);

  [[nodiscard]] const text::Sources& sources() const { return sources_; }
  std::vector<Share>& shares() { return shares_; }
  /// What there is to say about the files themselves, by their names.
  std::map<std::string, diag::Findings*> findings_of_files() { return library_.findings(); }
  /// Exceptions of all protocols, by where they stand.
  [[nodiscard]] const std::map<text::Span, Tried>& exceptions() const { return exceptions_; }

 private:
  template <class DeclaredOnce>
  std::vector<const model::Protocol*> resolve(DeclaredOnce&& declared, Share& share);
  void hold(const model::Protocol& protocol, diag::Subject about, Share& share);
  void accept(const report::Held& held, diag::Findings& found);

  const Request& request_;
  const std::vector<std::unique_ptr<kit::Kit>>& kits_;
  plan::WorkCache& cache_;
  text::Sources sources_;
  model::Library library_;
  std::vector<std::unique_ptr<model::Protocol>> protocols_;
  std::vector<Share> shares_;
  std::map<text::Span, Tried> exceptions_;
};

} // namespace norma::session
