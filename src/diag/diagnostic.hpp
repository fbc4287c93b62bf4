// A finding: what is wrong, where, with which numbers, and what would mend it.
//
// The folder diag/ holds the catalogue of all findings, the finding itself, and how findings are
// shown (terminal, JSON). How a message is written: lower case start, no full stop, the situation
// first, the number next; the remedy is a help line.
#pragma once

#include <fmt/core.h>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diag/sentence.hpp"
#include "diag/subject.hpp"
#include "physics/quantity_text.hpp"
#include "text/source.hpp"

namespace norma::diag {

/// How much it matters: error = impossible, reversed, contradictory or unreadable; warning = poor
/// or not comparable; advice = comfort and order.
enum class Severity { advice, warning, error };
std::string_view to_text(Severity s);

/// One row of the catalogue: code, name (reads well after "accept"), severity. As a row of what is
/// said its key is the code: its message.
struct Definition : Row {
  std::string_view code;
  std::string_view name;
  Severity severity = Severity::error;
};

/// A finding whose message has `n` arguments.
template <int n> struct Def : Definition {
  constexpr Def(std::string_view c, std::string_view its_name, Severity s)
      : Definition{{c, n}, c, its_name, s} {}
};

enum class Relation { at_least, at_most, equal };
std::string_view to_text(Relation r);

/// A number a finding rests on, as data: `quantity` is `actual`, and should be in `relation` to
/// `limit`; both in the unit of `kind`.
struct Evidence {
  Said quantity;
  physics::Kind kind = physics::Kind::count;
  double actual = 0;
  Relation relation = Relation::at_least;
  double limit = 0;
};

/// A second place that explains the first.
struct Label {
  text::Span span;
  Said text;
};

/// A change of the text that mends it: put `replacement` in place of `span`. Safe = means what the
/// writer meant for certain.
struct Fix {
  text::Span span;
  std::string replacement;
  bool safe = false;
};

/// A verdict by many mouths.
struct InMouths {
  int hold = 0;      // of a hundred: in so many it does not come up
  bool mean = false; // nor in the mean mouth
};

struct Diagnostic {
  const Definition* definition = nullptr;
  Severity severity = Severity::error;
  Said message;
  text::Span span;
  /// What it is about; several where it is said of several views in the same words. None where it
  /// is about a file, or a kit, as a whole: its place says which.
  std::vector<Subject> about;
  std::string accepted; // why it is lived with, "" where it is not; it then counts for nothing
  std::vector<Label> labels;
  std::vector<Evidence> evidence;
  std::optional<InMouths> in_mouths; // nothing: it is judged in one mouth, or hangs on none
  std::vector<Said> notes;
  std::vector<Said> help;
  std::vector<Fix> fixes;

  Diagnostic& with_label(text::Span span, Said text);
  Diagnostic& with_evidence(Evidence e);
  Diagnostic& with_note(Said text);
  Diagnostic& with_help(Said text);
  Diagnostic& with_fix(text::Span span, std::string replacement, bool safe);

  /// The kit it speaks of; Subject::none where it speaks of none.
  [[nodiscard]] int kit() const { return about.empty() ? Subject::none : about.front().kit; }
};

/// A finding at a place; another number of arguments than its message has does not compile.
template <int n, class... Args>
Diagnostic make(const Def<n>& def, text::Span at, const Args&... args) {
  static_assert(sizeof...(Args) == n, "the message takes another number of arguments");
  Diagnostic d;
  d.definition = &def;
  d.severity = def.severity;
  d.message = Said(def, {Value(args)...});
  d.span = at;
  return d;
}

/// Collects findings. Past `kept` they are only counted; once settled, `most` are left, the graver
/// ones first, and the others are counted, too.
class Findings {
 public:
  static constexpr std::size_t most = 1000;
  static constexpr std::size_t kept = 20000;

  /// Keeps `d`; the reference holds until the next call.
  Diagnostic& add(Diagnostic d);
  void append(Findings other);
  /// Order by place, then code; drop what is said twice; what is said of several views in the same
  /// words becomes one finding about all of them.
  void settle();

  /// Marks the findings of that name about that very view, series or protocol as accepted; `met`
  /// becomes true where any is.
  void accept(std::string_view name, const Subject& about, std::string_view because, bool& met);
  [[nodiscard]] std::size_t accepted() const;

  [[nodiscard]] const std::vector<Diagnostic>& all() const { return all_; }
  [[nodiscard]] std::size_t dropped() const { return dropped_[0] + dropped_[1] + dropped_[2]; }
  [[nodiscard]] bool empty() const { return all_.empty(); }
  /// The worst of all, those that are only counted with them.
  [[nodiscard]] std::optional<Severity> worst() const;
  /// All of this severity, those that are only counted with them.
  [[nodiscard]] std::size_t count(Severity s) const;

  /// What is found in a protocol is about its file.
  void are_about_file(int file);

  /// Changes every place by `where`: to another numbering of files.
  void move_places(const std::function<text::Span(text::Span)>& where);

 private:
  std::vector<Diagnostic> all_;
  Diagnostic spill_;
  void drop(const Diagnostic& d) { ++dropped_[static_cast<std::size_t>(d.severity)]; }
  std::array<std::size_t, 3> dropped_{}; // by severity
};

} // namespace norma::diag
