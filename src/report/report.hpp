// All that came of a run, by subject: protocols held against kits, findings, open questions. What
// is shown of a run is read from here, and from nothing else.
//
// The folder report/ holds it as data; session/ fills it, emit/ shows it.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "plan/plan.hpp"
#include "text/source.hpp"
#include "words/literal.hpp"

namespace norma::report {

/// A protocol file that was asked for.
struct File {
  std::string path; // as it was asked for
  /// One for each group of patients that was asked for; the report shares them and the kits.
  std::vector<std::shared_ptr<const model::Protocol>> protocols;
  std::vector<text::FileId> read;    // itself and all that it builds on, in `Report::sources`
  std::vector<text::FileId> numbers; // of the same files, in the places of `protocols`
};

/// A kit that was given.
struct Kit {
  std::string path;
  text::FileId file = text::FileId::none; // in `Report::sources`
  std::string name;                       // no two kits of a run have the same
  std::shared_ptr<const kit::Kit> kit;
};

/// A protocol for one group of patients, held against one kit (or none). Places in the protocol are
/// not those of `Report::sources`.
struct Held {
  diag::Subject about;
  const model::Protocol* protocol = nullptr; // one of its file's
  std::shared_ptr<const kit::Kit> kit;       // null without one, and where it cannot be read
  plan::Plan plan;                           // empty where nobody asked for it
};

/// The third result beside met and not met: nobody can say, because a datum is missing.
struct NotChecked {
  diag::Subject about; // empty where it holds for all of the run
  diag::Said what;     // a row of diag/questions.hpp
  diag::Said missing;
};

struct Report {
  text::Sources sources;
  words::Date on;                                 // the day that dates are held against
  std::map<text::FileId, std::string> protocols;  // their names, by the file that declares each
  std::map<text::FileId, std::string> in_project; // paths from the project's folder
  /// What ids of findings know a file by: protocols by their path within the project and their
  /// name, kits by their name. No two files of a run are known by the same.
  std::map<text::FileId, std::string> known_as;
  std::vector<File> files;
  std::vector<Kit> kits;
  std::vector<Held> held; // in the order of the request: files, their groups, kits
  diag::Findings findings;
  std::vector<NotChecked> not_checked;

  /// The names behind a subject.
  [[nodiscard]] diag::SubjectNames names(const diag::Subject& about) const;
  /// The same of one of the `about` of a finding; where that is about a file or a kit as a whole
  /// (none is given), of what stands there.
  [[nodiscard]] diag::SubjectNames names(const diag::Diagnostic& found,
                                         const diag::Subject* about) const;
  /// Does a finding about this speak of a protocol that builds on another, and stand elsewhere than
  /// in that protocol's own file?
  [[nodiscard]] bool points_elsewhere(const diag::Diagnostic& found,
                                      const diag::Subject& about) const;
  /// The place in `files` where this one stands first: a file may be asked for by several names.
  [[nodiscard]] int first_of(int file) const;
  /// The findings that count for a protocol held against a kit: those about it and its parts, about
  /// the files that it is made of, and about its kit. In the order of `findings`.
  [[nodiscard]] std::vector<const diag::Diagnostic*> findings_for(const Held& held) const;
  /// The same of open questions; those of every run with them.
  [[nodiscard]] std::vector<const NotChecked*> not_checked_for(const Held& held) const;
  /// The findings that speak of this subject itself: of the view or series it names, or, where it
  /// names none, of the protocol. Accepted ones do, too. In the order of `findings`.
  [[nodiscard]] std::vector<const diag::Diagnostic*> said_of(const diag::Subject& about) const;
  /// The same of what was not checked: of this view, series or protocol itself, not of every run.
  [[nodiscard]] std::vector<const NotChecked*> not_checked_of(const diag::Subject& about) const;
  /// To be called when the last finding is in, and what was not checked: who asks afterwards does
  /// not walk all of them.
  void index();

 private:
  [[nodiscard]] std::string_view protocol_in(text::FileId file) const;
  /// Findings by the file, view and series that they speak of, as places in `findings`; each stands
  /// under all that it names.
  std::map<diag::Subject, std::vector<std::size_t>> by_subject_;
  /// The same of what was not checked; it names one subject.
  std::map<diag::Subject, std::vector<std::size_t>> not_checked_by_subject_;
};

/// Findings alone, about files that no protocol was made of.
Report findings_alone(diag::Findings findings, text::Sources sources);

} // namespace norma::report
