// The commands, each in a file of its own, and what they share.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "cli/in_project.hpp"
#include "cli/run.hpp"
#include "diag/diagnostic.hpp"
#include "review/compare.hpp"
#include "server/wire.hpp"
#include "session/compared.hpp"
#include "session/session.hpp"
#include "wording/wording.hpp"

namespace norma::cli {

enum class Format { text, json, markdown, sarif, lines, github, gitlab, junit, html, pdf, csv };

enum class PaperName { a4, letter };

/// What the command line said.
struct Options {
  std::vector<std::string> files;
  std::vector<std::string> kits;
  std::string on; // a date, "" for today
  Format format = Format::text;
  diag::Severity fail_on = diag::Severity::error;
  bool never_fail = false;     // --fail-on never
  bool fail_on_given = false;  // --fail-on; else a project file may say it
  bool no_project = false;     // --no-project
  bool may_be_empty = false;   // a folder without protocols is no error
  bool baseline = false;       // --baseline
  bool write_baseline = false; // --write-baseline
  std::string series;
  std::string root;                             // --root, "" where not given
  std::string group;                            // --for, "" for all groups
  bool no_scene = false;                        // --no-scene
  unsigned mouths = 1000;                       // --mouths
  unsigned patients = 1;                        // --patients
  unsigned shots = 200;                         // --shots
  unsigned seed = 1;                            // --seed
  unsigned threads = 0;                         // --threads, 0 for as many as the machine has
  bool check_only = false;                      // tidy --check
  bool plain = false;                           // show --plain
  bool write = false;                           // git-setup --write
  bool textconv = false;                        // git-setup --textconv
  bool from_git = false;                        // compare --from-git
  std::string since;                            // --since, "" where not given
  std::vector<std::string> old_kits{};          // --old-kit
  std::optional<review::Class> fail_on_class{}; // --fail-on of compare
  std::string picture;                          // --picture, the view to draw; "" for none
  std::string stdin_name;                       // --stdin-name, "" where not given
  std::vector<session::Overlay> overlays{};     // what came by standard input
  emit::Screen out{};
  emit::Screen err{};
  std::string output;                           // -o, "" for standard output
  PaperName paper = PaperName::a4;              // --paper
  bool compact = false;                         // --compact
  bool watch = false;                           // --watch
  std::function<void(std::string_view)> tell{}; // those of Surroundings
  std::function<bool()> stop{};
  std::function<void(const text::Sources&)> read{}; // is told the files of a run
  /// Makes a PDF; none where this program cannot.
  std::function<Printed(const drawing::Paper&)> print{};
  Repository repository{}; // empty where this program reads none
  /// Who provides the files that are read: the disk, and revisions where this program reads them.
  std::shared_ptr<const text::Files> reading = std::make_shared<text::DiskFiles>();
  server::Wire wire{}; // to an editor, for `serve`
  live::OpenHost open_host{};
  std::function<bool()> has_press{};
  std::function<bool(std::chrono::milliseconds)> wait{};
  unsigned port = 0; // --port, 0 for one that the system chooses
  /// What people read is in it.
  const wording::Language* language = wording::languages().front();
};

Outcome check(const Options& options);
Outcome plan(const Options& options);
Outcome list(const Options& options);
/// What to lay out.
Outcome tray(const Options& options);
/// A teacher's marking sheet.
Outcome marks(const Options& options);
/// Cards at the chair.
Outcome card(const Options& options);
/// `files` holds one topic (a code, a finding's name or a word of the language), or a file and one
/// of its views.
Outcome explain(const Options& options);

/// Names one a line: `files` holds what kind, then protocols where it is theirs.
Outcome names(const Options& options);
/// The completions of the shell that `files` names.
Outcome completions(const Options& options);
/// Kits read back in words; `files` are kits.
Outcome kit(const Options& options);
/// What a change of protocols or kits does to the pictures. `files` holds OLD and NEW.
Outcome compare(const Options& options);
/// Which protocols a change reaches. `files` holds OLD and NEW.
Outcome affected(const Options& options);
/// The protocol is made for its base as that is now.
Outcome follow(const Options& options);
/// Views by kits as a table.
Outcome chairs(const Options& options);
/// How far shots may be off. `files` holds a file, then its views to tell of; all where none is.
Outcome margins(const Options& options);
/// Views in many mouths of their group.
Outcome mouths(const Options& options);
/// Speaks with an editor until that ends it.
Outcome serve(const Options& options);
/// Shows a page of the protocol as it is saved, until that is ended.
Outcome live(const Options& options);
/// The resolved protocol as plain text.
Outcome show(const Options& options);
/// Files in the one layout, written anew; with --check only told.
Outcome tidy(const Options& options);
/// How git comes to compare protocols by norma: told, or with --write put into its files.
Outcome git_setup(const Options& options);
/// What git runs to compare two texts of a file: behind it come the 7 arguments of its external
/// diff, or 9 where the file was renamed (gitdiff, GIT_EXTERNAL_DIFF). A program that ends with
/// another exit code than 0 ends all of git's diff.
inline constexpr std::string_view command_for_git = "norma compare --from-git";
/// Why nothing could be compared, where nothing could.
std::optional<std::string> why_not_compared(const session::CompareAnswer& answer);
/// `files` holds these arguments.
Outcome compare_from_git(const Options& options);

// Shared ---------------------------------------------------------------------------------------

/// The run could not start; `why` goes to standard error.
Outcome could_not_run(const std::string& why);
/// `outcome` with the document it is about, on standard output or in the file of `-o`.
Outcome delivered(Outcome outcome, std::string document, const Options& options);

/// Nothing in the file is for the group that --for names.
Outcome no_such_group(const std::string& path, const std::string& group,
                      const std::vector<std::string>& groups);

/// The file has no view of that name; the nearest of `names` is offered.
Outcome no_such_view(const std::string& path, const std::string& view,
                     const std::vector<std::string_view>& names);

/// The protocol has no series of that name; what it has is told. Nothing where it has, or where it
/// could not be read whole.
std::optional<Outcome> no_such_series(const report::Report& report, const report::Held& held,
                                      const std::string& series);

/// Why a command that plans with the kits cannot: one of them is none. `check` says what is wrong.
std::optional<Outcome> kit_not_read(const session::Session& session);

/// The day of --on, or today.
std::variant<words::Date, Outcome> day_of(const Options& options);

/// Is this file standard input?
bool is_overlay(const Options& options, const std::string& path);

/// How a run ends that reads a revision (REV:path, or REV alone in place of a file) in a program
/// that reads none; nothing else. To be asked before standard input is read.
std::optional<Outcome> needs_revisions(const Options& options);

/// The protocols that one argument stands for: a file, those below a folder, and the same of a
/// revision (REV:path, REV:folder, REV); or why there are none. `options.reading` reads them.
std::variant<std::vector<std::string>, Outcome> protocols_of(const std::string& argument,
                                                             const Options& options);
/// What one of them is called below the folder or revision that was asked for, wherever that lies:
/// two of them hold the same file under the same name. "" where it is what was asked for.
std::string name_below(const std::string& argument, const std::string& file);
/// The protocols that were asked for, those below folders in their place; or why there are none.
std::variant<std::vector<std::string>, Outcome> protocol_files(const Options& options);

/// What is told of a file that has nothing for the group of --for, where others have.
std::string left_out_text(const std::string& path, const Options& options);
/// The same of all such files of a run.
std::string left_out_text(const session::Session& session, const Options& options);

/// What a command shows of a run; what it does not show is not kept.
enum class Wanted { findings, plans, plans_and_fingerprints };
/// Does it need a kit for each protocol?
enum class Needs { nothing, kit };

/// Runs a session over the options' files and kits, or those of their project. Nothing where it
/// ran; else how it ended.
std::optional<Outcome> run_session(session::Session& session, const Options& options,
                                   Wanted wanted = Wanted::plans, Needs needs = Needs::nothing);
/// The same of protocols and kits that were chosen before; `all`: more findings than are shown.
std::optional<Outcome> run_chosen(session::Session& session, const Options& options,
                                  const Chosen& chosen, Wanted wanted, bool all = false);

/// Runs a session that plans with the kits, which there must be: `outcome` gets its exit code and
/// what stands against it, which is no part of the document. Nothing where it ran; else how it
/// ended.
std::optional<Outcome> run_plans(session::Session& session, const Options& options,
                                 Outcome& outcome, Wanted wanted = Wanted::plans);

/// Exit code for the findings by --fail-on.
int code_for(const diag::Findings& findings, const Options& options);

/// "Not checked" as text: questions with the same missing datum stand together. "" where none.
std::string not_checked_text(const report::Report& report, const wording::Language& in,
                             const emit::Screen& screen = {});

} // namespace norma::cli
