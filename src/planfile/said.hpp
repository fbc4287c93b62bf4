// What a plan file says of a view: facts, the words of the protocol, questions, acts, settings.
#pragma once

#include "planfile/values.hpp"

namespace norma::planfile {

// `fields` names each field once: its key, itself, and what it is. `S` is the struct, or a const
// one.

/// A sentence: typed, and for people.
struct Sentence {
  Maybe<RowId> key;
  std::vector<Value> with;
  std::string text;
  static constexpr std::string_view type_name = "sentence";
  static constexpr std::string_view type_about =
      "what is said: its row, what is put into it, and in words";
  template <class A, class S> static void fields(A& a, S& s) {
    a("key", s.key, "row of the sentence; null: words of the protocol or kit");
    a("with", s.with, "what is put into it, in the order of the row");
    a("text", s.text, "for people");
  }
  friend bool operator==(const Sentence&, const Sentence&) = default;
};

/// What holds for a fact wherever it stands.
struct FactRow {
  FactId id;
  std::string label;
  Maybe<std::string> formula;
  Maybe<std::string> source;
  static constexpr std::string_view type_name = "fact_row";
  static constexpr std::string_view type_about = "what a fact is, said once for all views";
  template <class A, class S> static void fields(A& a, S& s) {
    a("id", s.id, "");
    a("label", s.label, "for people");
    a("formula", s.formula, "how it is worked out");
    a("source", s.source, "what that rests on");
  }
  friend bool operator==(const FactRow&, const FactRow&) = default;
};

enum class State { value, impossible, unknown, broken };
template <> struct Ids<State> {
  static constexpr std::string_view type_name = "state";
  static constexpr std::string_view type_about = "impossible: it cannot be had; unknown: a datum "
                                                 "is missing; broken: what it needs could not be "
                                                 "read";
  static constexpr std::string_view all[] = {"value", "impossible", "unknown", "broken"};
};
enum class Status { asked, measured, published, handbook, assumed };
template <> struct Ids<Status> {
  static constexpr std::string_view type_name = "status";
  static constexpr std::string_view type_about =
      "where a value comes from; one that is worked out is as good as the weakest it rests on";
  static constexpr std::string_view all[] = {"asked", "measured", "published", "handbook",
                                             "assumed"};
};

struct Fact {
  FactId id;
  State state = State::value;
  Maybe<Value> value;
  Maybe<std::string> text;
  Maybe<Status> status;
  Maybe<Sentence> why;
  std::vector<FactId> inputs;
  static constexpr std::string_view type_name = "fact";
  static constexpr std::string_view type_about = "what norma has worked out, or why it could not";
  template <class A, class S> static void fields(A& a, S& s) {
    a("id", s.id, "row of `fact_rows`");
    a("state", s.state, "");
    a("value", s.value, "of one that is impossible the nearest that would do, if any");
    a("text", s.text, "the value for people");
    a("status", s.status, "null where it is unknown or broken");
    a("why", s.why, "impossible: what stands against it; unknown: the datum that is missing");
    a("inputs", s.inputs, "facts it was worked out from");
  }
  friend bool operator==(const Fact&, const Fact&) = default;
};

/// A clause behind a word: `held by assistant`.
struct Clause {
  SlotId slot;
  std::vector<Value> values;
  std::string text;
  static constexpr std::string_view type_name = "clause";
  static constexpr std::string_view type_about = "what stands behind a word, up to the next comma";
  template <class A, class S> static void fields(A& a, S& s) {
    a("slot", s.slot, "which clause of the word it is");
    a("values", s.values, "in their order; none where the clause has only one way to stand");
    a("text", s.text, "as the language writes it");
  }
  friend bool operator==(const Clause&, const Clause&) = default;
};
/// A word of the language, as it counts once all is resolved.
struct Asked {
  WordId word;
  Maybe<std::string> key;
  bool read = true;
  std::vector<Clause> clauses;
  static constexpr std::string_view type_name = "asked";
  static constexpr std::string_view type_about =
      "a word of the protocol as it counts once bases, defaults and derived views are resolved";
  template <class A, class S> static void fields(A& a, S& s) {
    a("word", s.word, "");
    a("key", s.key, "of a word that stands once for each side");
    a("read", s.read, "false: what stands behind it could not be read");
    a("clauses", s.clauses, "in the order of the text");
  }
  friend bool operator==(const Asked&, const Asked&) = default;
};

struct Question {
  Sentence what;
  Sentence missing;
  static constexpr std::string_view type_name = "question";
  static constexpr std::string_view type_about =
      "what nobody can say, and the datum that would answer it";
  template <class A, class S> static void fields(A& a, S& s) {
    a("what", s.what, "");
    a("missing", s.missing, "");
  }
  friend bool operator==(const Question&, const Question&) = default;
};

enum class Who { patient, assistant, operator_ };
template <> struct Ids<Who> {
  static constexpr std::string_view type_name = "who";
  static constexpr std::string_view type_about = "";
  static constexpr std::string_view all[] = {"patient", "assistant", "operator"};
};
enum class When { before, at, after };
template <> struct Ids<When> {
  static constexpr std::string_view type_name = "when";
  static constexpr std::string_view type_about = "the picture; at: just before the shot";
  static constexpr std::string_view all[] = {"before", "at", "after"};
};

struct Act {
  Who who = Who::operator_;
  RowId verb;
  std::vector<Value> objects;
  std::vector<Value> how;
  When when = When::before;
  std::string text;
  static constexpr std::string_view type_name = "act";
  static constexpr std::string_view type_about = "what is done at the chair, in its order";
  template <class A, class S> static void fields(A& a, S& s) {
    a("who", s.who, "");
    a("verb", s.verb, "act.*");
    a("objects", s.objects, "what the verb is done to, in the order of its row");
    a("how", s.how, "details, in their order");
    a("when", s.when, "");
    a("text", s.text, "for people");
  }
  friend bool operator==(const Act&, const Act&) = default;
};

/// Hands, and what they hold.
struct Hands {
  Who who = Who::operator_;
  Maybe<std::int64_t> hands;
  std::int64_t on_camera = 0;
  std::vector<Value> holds;
  static constexpr std::string_view type_name = "hands";
  static constexpr std::string_view type_about = "who holds what while the picture is taken";
  template <class A, class S> static void fields(A& a, S& s) {
    a("who", s.who, "");
    a("hands", s.hands, "in all; null where it could not be read");
    a("on_camera", s.on_camera, "of them");
    a("holds", s.holds, "one hand for each");
  }
  friend bool operator==(const Hands&, const Hands&) = default;
};

enum class SettingId {
  ratio,
  lens_mark,
  aperture,
  iso,
  exposure_time,
  white_balance,
  file_format,
  flash_power,
  lamp,
  working_distance,
  exposure_offset,
  focus,
};
template <> struct Ids<SettingId> {
  static constexpr std::string_view type_name = "setting_id";
  static constexpr std::string_view type_about = "lens_mark: what is read on the lens";
  static constexpr std::string_view all[] = {
      "ratio",         "lens_mark",        "aperture",        "iso",
      "exposure_time", "white_balance",    "file_format",     "flash_power",
      "lamp",          "working_distance", "exposure_offset", "focus"};
};
enum class SettingHow { as_fact, automatic, not_settled };
template <> struct Ids<SettingHow> {
  static constexpr std::string_view type_name = "setting_how";
  static constexpr std::string_view type_about =
      "as_fact: to the value of the fact; automatic: lamp or camera does it; not_settled: nobody "
      "can say "
      "(the fact, or what is not checked, says why)";
  static constexpr std::string_view all[] = {"as_fact", "automatic", "not_settled"};
};
struct Setting {
  SettingId id = SettingId::ratio;
  SettingHow how = SettingHow::as_fact;
  FactId fact;
  Maybe<FactId> spread;
  static constexpr std::string_view type_name = "setting";
  static constexpr std::string_view type_about =
      "what is set on camera, lens and lamp, in its order";
  template <class A, class S> static void fields(A& a, S& s) {
    a("id", s.id, "");
    a("how", s.how, "");
    a("fact", s.fact, "that holds the value");
    a("spread", s.spread, "fact that says how far it may be off");
  }
  friend bool operator==(const Setting&, const Setting&) = default;
};

} // namespace norma::planfile
