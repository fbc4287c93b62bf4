// A plan as a file for other programs (edition 2): all that is needed to draw it and to print it,
// typed, without a table of norma's. What stands here is the format: reader, writer and
// docs/schema/plan.schema.json are made from the `fields` of these structs.
//
// The folder planfile/ holds this document, its reader and its writer; emit/ fills it from a
// report, programs that draw read it.
#pragma once

#include "planfile/said.hpp"
#include "planfile/scene.hpp"
#include "planfile/values.hpp"

namespace norma::planfile {

struct ViewCode {
  std::string code;
  std::string term;
  static constexpr std::string_view type_name = "view_code";
  static constexpr std::string_view type_about = "of the draft ANSI/ADA Standard No. 1100";
  template <class A, class S> static void fields(A& a, S& s) {
    a("code", s.code, "IV07");
    a("term", s.term, "");
  }
  friend bool operator==(const ViewCode&, const ViewCode&) = default;
};
struct MadeFrom {
  std::string view;
  Maybe<std::string> crossing;
  static constexpr std::string_view type_name = "made_from";
  static constexpr std::string_view type_about = "the view that this one is made from";
  template <class A, class S> static void fields(A& a, S& s) {
    a("view", s.view, "");
    a("crossing", s.crossing, "for the other side, for the lower jaw, ...");
  }
  friend bool operator==(const MadeFrom&, const MadeFrom&) = default;
};

enum class ViewKind { mouth, face };
template <> struct Ids<ViewKind> {
  static constexpr std::string_view type_name = "view_kind";
  static constexpr std::string_view type_about = "";
  static constexpr std::string_view all[] = {"mouth", "face"};
};
struct View {
  std::string name;
  std::string title;
  ViewKind kind = ViewKind::mouth;
  Maybe<ViewCode> code;
  Maybe<MadeFrom> made_from;
  bool complete = true;
  std::vector<Asked> asked;
  std::vector<Fact> facts;
  std::vector<Setting> settings;
  std::vector<Hands> hands;
  std::vector<Act> acts;
  std::vector<Shown> shown;
  Maybe<Viewfinder> viewfinder;
  Maybe<Scene> scene;
  Maybe<Sentence> no_scene;
  std::vector<Question> not_checked;
  static constexpr std::string_view type_name = "view";
  static constexpr std::string_view type_about = "one picture to take";
  template <class A, class S> static void fields(A& a, S& s) {
    a("name", s.name, "");
    a("title", s.title, "");
    a("kind", s.kind, "");
    a("code", s.code, "");
    a("made_from", s.made_from, "");
    a("complete", s.complete,
      "false: something that counts for it could not be read; it cannot be trusted");
    a("asked", s.asked, "what the protocol asks for, word by word");
    a("facts", s.facts, "in the order in which they were worked out");
    a("settings", s.settings, "");
    a("hands", s.hands, "");
    a("acts", s.acts, "");
    a("shown", s.shown, "surfaces that must show; none where they were not looked at");
    a("viewfinder", s.viewfinder, "");
    a("scene", s.scene, "null where nothing was placed; `no_scene` says why");
    a("no_scene", s.no_scene, "the datum for want of which nothing was placed");
    a("not_checked", s.not_checked, "");
  }
  friend bool operator==(const View&, const View&) = default;
};

/// What changes when a view is taken behind another one.
struct Changes {
  std::vector<Act> acts;
  std::vector<Act> stays;
  std::vector<SettingId> set;
  std::int64_t insertions = 0;
  static constexpr std::string_view type_name = "changes";
  static constexpr std::string_view type_about =
      "what a view changes against the one before it that can be had; a second choice, against how "
      "that was set up that it stands in for";
  template <class A, class S> static void fields(A& a, S& s) {
    a("acts", s.acts, "what comes out, what changes, and what is said and looked at anew");
    a("stays", s.stays, "what it asks for and has already");
    a("set", s.set, "settings that are others than before");
    a("insertions", s.insertions, "pieces that go into the mouth, or into another place in it");
  }
  friend bool operator==(const Changes&, const Changes&) = default;
};
/// What a series asks of patient and team.
struct Effort {
  std::int64_t insertions = 0;
  std::int64_t changes = 0;
  double minutes = 0;
  static constexpr std::string_view type_name = "effort";
  static constexpr std::string_view type_about = "of the views that can be had, in one order";
  template <class A, class S> static void fields(A& a, S& s) {
    a("insertions", s.insertions, "");
    a("changes", s.changes, "pieces, poses, places and settings that are others than before");
    a("minutes", s.minutes, "with something in the mouth");
  }
  friend bool operator==(const Effort&, const Effort&) = default;
};
struct OtherOrder {
  std::vector<std::string> views;
  Effort effort;
  static constexpr std::string_view type_name = "other_order";
  static constexpr std::string_view type_about =
      "an order with fewer insertions, or as many and a tenth fewer changes; advice";
  template <class A, class S> static void fields(A& a, S& s) {
    a("views", s.views, "names");
    a("effort", s.effort, "");
  }
  friend bool operator==(const OtherOrder&, const OtherOrder&) = default;
};
struct Entry {
  std::string view;
  bool optional = false;
  Maybe<std::string> instead_of;
  Maybe<Changes> changes;
  static constexpr std::string_view type_name = "entry";
  static constexpr std::string_view type_about = "a view of a series";
  template <class A, class S> static void fields(A& a, S& s) {
    a("view", s.view, "");
    a("optional", s.optional, "");
    a("instead_of", s.instead_of,
      "a second choice, taken only where that view cannot be had; null: it is one of the series");
    a("changes", s.changes, "null: it cannot be had, and is passed over");
  }
  friend bool operator==(const Entry&, const Entry&) = default;
};
struct TrayItem {
  Sentence thing;
  std::int64_t count = 1;
  bool second_choice = false;
  static constexpr std::string_view type_name = "tray_item";
  static constexpr std::string_view type_about = "what lies ready";
  template <class A, class S> static void fields(A& a, S& s) {
    a("thing", s.thing, "");
    a("count", s.count, "of it at once");
    a("second_choice", s.second_choice, "only for a second choice");
  }
  friend bool operator==(const TrayItem&, const TrayItem&) = default;
};
struct SheetRow {
  std::vector<std::string> views;
  static constexpr std::string_view type_name = "sheet_row";
  static constexpr std::string_view type_about = "pictures that lie side by side on a sheet";
  template <class A, class S> static void fields(A& a, S& s) { a("views", s.views, "names"); }
  friend bool operator==(const SheetRow&, const SheetRow&) = default;
};
struct Series {
  Maybe<std::string> name;
  bool complete = true;
  std::vector<Entry> views;
  std::vector<SheetRow> laid_out;
  std::vector<TrayItem> tray;
  std::vector<Act> acts;
  std::vector<Act> clear;
  Effort effort;
  Maybe<OtherOrder> other_order;
  std::vector<Fact> facts;
  std::vector<Question> not_checked;
  static constexpr std::string_view type_name = "series";
  static constexpr std::string_view type_about = "views in the order in which they are taken";
  template <class A, class S> static void fields(A& a, S& s) {
    a("name", s.name, "null: the protocol has no series; all its views in their order");
    a("complete", s.complete, "false: a name in it leads nowhere");
    a("views", s.views, "in their order, then second choices that it does not list, in theirs");
    a("laid_out", s.laid_out, "rows from the top; none where the protocol says nothing of it");
    a("tray", s.tray, "");
    a("acts", s.acts, "for the grey card: before the first view, or after the last");
    a("clear", s.clear, "what comes out behind the last view");
    a("effort", s.effort, "");
    a("other_order", s.other_order, "null: none is known that asks less");
    a("facts", s.facts, "");
    a("not_checked", s.not_checked, "");
  }
  friend bool operator==(const Series&, const Series&) = default;
};

struct Fingerprint {
  Digest pictures;
  Digest everything;
  static constexpr std::string_view type_name = "fingerprint";
  static constexpr std::string_view type_about = "of the resolved protocol";
  template <class A, class S> static void fields(A& a, S& s) {
    a("pictures", s.pictures, "of what makes the pictures");
    a("everything", s.everything, "");
  }
  friend bool operator==(const Fingerprint&, const Fingerprint&) = default;
};
enum class EditId { change_view, drop_view, change_series };
template <> struct Ids<EditId> {
  static constexpr std::string_view type_name = "edit_id";
  static constexpr std::string_view type_about = "";
  static constexpr std::string_view all[] = {"change_view", "drop_view", "change_series"};
};
struct Edit {
  EditId what = EditId::change_view;
  std::string of;
  Maybe<std::string> because;
  static constexpr std::string_view type_name = "edit";
  static constexpr std::string_view type_about =
      "what the protocol, or one of its bases, changes of a base";
  template <class A, class S> static void fields(A& a, S& s) {
    a("what", s.what, "");
    a("of", s.of, "name of the view or series");
    a("because", s.because, "");
  }
  friend bool operator==(const Edit&, const Edit&) = default;
};
struct Accepted {
  FindingName finding;
  Maybe<std::string> view;
  Maybe<std::string> series;
  std::vector<std::string> kits;
  Maybe<std::string> until;
  std::string because;
  static constexpr std::string_view type_name = "accepted";
  static constexpr std::string_view type_about = "a finding that the protocol lives with";
  template <class A, class S> static void fields(A& a, S& s) {
    a("finding", s.finding, "");
    a("view", s.view, "");
    a("series", s.series, "");
    a("kits", s.kits, "by their names; it holds with these only; empty: with each");
    a("until", s.until, "the last day on which it holds, as 2027-03-01");
    a("because", s.because, "");
  }
  friend bool operator==(const Accepted&, const Accepted&) = default;
};

struct Plan {
  std::string protocol;
  std::string title;
  Maybe<std::string> group;
  Index file;
  std::vector<Index> bases;
  Maybe<Index> kit;
  Maybe<Fingerprint> fingerprint;
  bool complete = true;
  std::vector<Asked> asked;
  std::vector<Edit> edits;
  std::vector<Accepted> accepted;
  std::vector<Fact> facts;
  std::vector<Series> series;
  std::vector<View> views;
  std::vector<Index> findings;
  std::vector<Question> not_checked;
  static constexpr std::string_view type_name = "plan";
  static constexpr std::string_view type_about =
      "a protocol for one group of patients with one kit";
  template <class A, class S> static void fields(A& a, S& s) {
    a("protocol", s.protocol, "its name");
    a("title", s.title, "");
    a("group", s.group, "whom it is planned for");
    a("file", s.file, "place in `files`");
    a("bases", s.bases, "places in `files`: what it builds on");
    a("kit", s.kit, "place in `kits`; null: planned without one");
    a("fingerprint", s.fingerprint, "");
    a("complete", s.complete, "false: something of protocol or kit could not be read");
    a("asked", s.asked, "what stands beside the views");
    a("edits", s.edits, "those of bases first");
    a("accepted", s.accepted, "");
    a("facts", s.facts, "about the protocol as a whole");
    a("series", s.series, "at least one");
    a("views", s.views, "in the protocol's order");
    a("findings", s.findings, "places in `findings`: those that count for this plan");
    a("not_checked", s.not_checked, "beside those of its views and series");
  }
  friend bool operator==(const Plan&, const Plan&) = default;
};

// Findings ----------------------------------------------------------------------------------------

enum class Severity { advice, warning, error };
template <> struct Ids<Severity> {
  static constexpr std::string_view type_name = "severity";
  static constexpr std::string_view type_about =
      "error: impossible, reversed, contradictory or unreadable; warning: poor or not comparable; "
      "advice: comfort and order";
  static constexpr std::string_view all[] = {"advice", "warning", "error"};
};
enum class RelationId { at_least, at_most, equal };
template <> struct Ids<RelationId> {
  static constexpr std::string_view type_name = "relation";
  static constexpr std::string_view type_about = "of `actual` to `limit`, as it should be";
  static constexpr std::string_view all[] = {"at least", "at most", "equal"};
};
struct SourcePlace {
  Index file;
  std::int64_t line = 1;
  std::int64_t column = 1;
  std::int64_t end_line = 1;
  std::int64_t end_column = 1;
  static constexpr std::string_view type_name = "place";
  static constexpr std::string_view type_about = "a stretch of a file";
  template <class A, class S> static void fields(A& a, S& s) {
    a("file", s.file, "place in `files`");
    a("line", s.line, "from 1");
    a("column", s.column, "from 1, in characters");
    a("end_line", s.end_line, "");
    a("end_column", s.end_column, "behind it");
  }
  friend bool operator==(const SourcePlace&, const SourcePlace&) = default;
};
struct About {
  Maybe<Index> file;
  Maybe<std::string> group;
  Maybe<Index> kit;
  Maybe<std::string> view;
  Maybe<std::string> series;
  static constexpr std::string_view type_name = "about";
  static constexpr std::string_view type_about = "what something is said of; null: of all of them";
  template <class A, class S> static void fields(A& a, S& s) {
    a("file", s.file, "place in `files`, of the protocol");
    a("group", s.group, "of patients");
    a("kit", s.kit, "place in `kits`");
    a("view", s.view, "");
    a("series", s.series, "");
  }
  friend bool operator==(const About&, const About&) = default;
};
struct Evidence {
  Sentence quantity;
  Amount actual;
  RelationId relation = RelationId::at_least;
  Amount limit;
  static constexpr std::string_view type_name = "evidence";
  static constexpr std::string_view type_about = "a number that a finding rests on";
  template <class A, class S> static void fields(A& a, S& s) {
    a("quantity", s.quantity, "");
    a("actual", s.actual, "");
    a("relation", s.relation, "");
    a("limit", s.limit, "");
  }
  friend bool operator==(const Evidence&, const Evidence&) = default;
};
struct Finding {
  std::string id;
  FindingCode code;
  FindingName name;
  Severity severity = Severity::error;
  Sentence message;
  Maybe<std::string> accepted_because;
  std::vector<About> about;
  Maybe<SourcePlace> place;
  std::vector<Evidence> evidence;
  std::vector<Sentence> notes;
  std::vector<Sentence> help;
  static constexpr std::string_view type_name = "finding";
  static constexpr std::string_view type_about =
      "what is wrong, where, by which numbers, and what mends it";
  template <class A, class S> static void fields(A& a, S& s) {
    a("id", s.id, "the same in every run over the same words, and in `norma check`");
    a("code", s.code, "");
    a("name", s.name, "of the same code");
    a("severity", s.severity, "");
    a("message", s.message, "");
    a("accepted_because", s.accepted_because, "it then counts for nothing");
    a("about", s.about, "none: about a file as a whole, which its place names");
    a("place", s.place, "");
    a("evidence", s.evidence, "");
    a("notes", s.notes, "");
    a("help", s.help, "");
  }
  friend bool operator==(const Finding&, const Finding&) = default;
};
struct NotListed {
  std::int64_t errors = 0;
  std::int64_t warnings = 0;
  std::int64_t advice = 0;
  static constexpr std::string_view type_name = "not_listed";
  static constexpr std::string_view type_about = "findings that were too many to be listed";
  template <class A, class S> static void fields(A& a, S& s) {
    a("errors", s.errors, "");
    a("warnings", s.warnings, "");
    a("advice", s.advice, "");
  }
  friend bool operator==(const NotListed&, const NotListed&) = default;
};

struct Header {
  std::int64_t edition = planfile::edition;
  std::string version;
  static constexpr std::string_view type_name = "header";
  static constexpr std::string_view type_about = "which norma wrote it";
  template <class A, class S> static void fields(A& a, S& s) {
    a("edition", s.edition, "of this format");
    a("version", s.version, "of the program");
  }
  friend bool operator==(const Header&, const Header&) = default;
};

enum class FileRole { kit, protocol, base };
template <> struct Ids<FileRole> {
  static constexpr std::string_view type_name = "file_role";
  static constexpr std::string_view type_about =
      "protocol: it was asked for; base: a protocol builds on it";
  static constexpr std::string_view all[] = {"kit", "protocol", "base"};
};

struct File {
  std::string path;
  FileRole role = FileRole::protocol;
  Digest sha256;
  static constexpr std::string_view type_name = "file";
  static constexpr std::string_view type_about = "a file that was read";
  template <class A, class S> static void fields(A& a, S& s) {
    a("path", s.path, "as it was asked for or named");
    a("role", s.role, "");
    a("sha256", s.sha256, "of its bytes");
  }
  friend bool operator==(const File&, const File&) = default;
};

struct Kit {
  std::string name;
  Maybe<std::string> title;
  Index file;
  static constexpr std::string_view type_name = "kit";
  static constexpr std::string_view type_about = "camera, lamps and instruments of a chair";
  template <class A, class S> static void fields(A& a, S& s) {
    a("name", s.name, "no two kits of a document have the same");
    a("title", s.title, "");
    a("file", s.file, "place in `files`");
  }
  friend bool operator==(const Kit&, const Kit&) = default;
};

struct Document {
  Header norma;
  Day on;
  bool complete = true;
  std::vector<File> files;
  std::vector<Kit> kits;
  std::vector<FactRow> fact_rows;
  std::vector<Plan> plans;
  std::vector<Finding> findings;
  NotListed not_listed;
  std::vector<Question> not_checked;
  static constexpr std::string_view type_name = "document";
  static constexpr std::string_view type_about = "Plan JSON, edition 2: what `norma plan` prints";
  template <class A, class S> static void fields(A& a, S& s) {
    a("norma", s.norma, "");
    a("on", s.on, "the day that dates are held against");
    a("complete", s.complete,
      "false: something could not be read, and findings of severity error say what");
    a("files", s.files, "");
    a("kits", s.kits, "");
    a("fact_rows", s.fact_rows, "of all facts in the document");
    a("plans", s.plans, "in the order of the request: protocols, their groups, kits");
    a("findings", s.findings, "");
    a("not_listed", s.not_listed, "");
    a("not_checked", s.not_checked, "of every plan, beside its own");
  }
  friend bool operator==(const Document&, const Document&) = default;
};

} // namespace norma::planfile
