// The rules: each reads facts and complains. One rule, one file; one explicit list (rules.def).
// A rule computes nothing: a number that it lacks is a fact to be added in plan/.
#pragma once

#include <deque>

#include "diag/catalogue.hpp"
#include "diag/diagnostic.hpp"
#include "facts/facts.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "plan/many_mouths.hpp"
#include "plan/plan.hpp"
#include "rules/notes.hpp"
#include "words/literal.hpp"

namespace norma::rules {

namespace catalogue = diag::catalogue;
namespace fact = plan::fact;

/// What a rule may look at.
struct Context {
  const model::Protocol& protocol;
  const kit::Kit* kit; // null without a kit
  const plan::Plan& plan;
  words::Date on;
  diag::Subject about; // the protocol with this kit
};

/// Where a rule puts what it finds; it knows what the finding is about.
class Sink {
 public:
  /// `cause`: of the view, where one is found; it outlives the sink.
  Sink(diag::Findings& out, diag::Subject about, const diag::Definition** cause = nullptr)
      : out_(out), about_(about), cause_(cause) {}
  diag::Diagnostic& report(diag::Diagnostic d) {
    d.about = {about_};
    return silent(*d.definition) ? not_told_.emplace_back(std::move(d)) : out_.add(std::move(d));
  }
  /// What follows from this finding about the view is not told: one cause, one finding.
  void cause(const diag::Definition& finding) {
    if (cause_ != nullptr && *cause_ == nullptr) *cause_ = &finding;
  }

 private:
  [[nodiscard]] bool silent(const diag::Definition& finding) const;

  diag::Findings& out_;
  diag::Subject about_;
  const diag::Definition** cause_;
  std::deque<diag::Diagnostic> not_told_; // rules hold references to what they report
};

/// Runs all rules.
void apply(const Context& context, diag::Findings& out);

/// Where a finding about `value` stands: where it was said, else the view's heading.
template <class T> text::Span place_of(const text::Sourced<T>& value, const plan::ViewPlan& view) {
  return value.span().known() ? value.span() : view.view->heading;
}

/// Where the ratio was said, or the field in its place.
text::Span place_of_ratio(const plan::ViewPlan& view);
/// How grave it is that something holds in so many of a hundred mouths, less than all.
diag::Severity in_mouths_severity(int mouths);
/// What of the model of the mouth a finding hangs on: in how many of a hundred mouths it does not
/// come up, and what that hangs on.
struct Mouths {
  const plan::FactDef<int>* in;
  const plan::FactDef<diag::Said>* by;
};
/// Does it come up in more of them than the few that are no finding?
bool in_some_mouths(const plan::Facts& facts, const Mouths& mouths);
/// The teeth, and in how many mouths it comes up.
diag::Value teeth_in_mouths(const plan::Facts& facts, const plan::FactRow& teeth,
                            const Mouths& mouths);
/// Says in how many it comes up. `in_mean`: in the mean mouth. True where that is known.
bool note_mouths(const plan::Facts& facts, const Mouths& mouths, bool in_mean, diag::Diagnostic& d);
/// Is nothing seen of one of these teeth in any mouth?
bool never_seen(const plan::Facts& facts, const plan::FactDef<diag::Teeth>& of);
/// Where the corners of the mouth are held: as the kit has it, else what is said of it.
diag::Said corners_said(const plan::Facts& facts, diag::Said assumed);
/// The same of many mouths, where a corner is held: drawn from a range, or as the kit has it.
void note_corners(const plan::Facts& facts, diag::Diagnostic& d);
/// In how many mouths what must show fits, and what that hangs on.
diag::Said fits_in(const plan::Facts& facts, int mouths);

/// Is `place` where another view says it, which this one is made from for the other side? What is
/// wrong there is told there.
bool said_for_other_side(const model::Protocol& protocol, const model::View& view,
                         text::Span place);
/// Is a blur wider than what is allowed by more than a tenth? The allowed one is a convention (see
/// docs/model.md), and nobody sees a tenth of it.
bool clearly_wider(Length blur, Length allowed);
/// A side, to be said.
diag::Said name_of_side(bool right);
/// Does the view show the lower jaw, and it alone?
bool shows_lower_jaw(const model::View& view);
/// Where a series lists a view.
text::Span entry_span(const model::Series& series, std::string_view view);

/// What a piece of the kit is called; `otherwise` where the kit gives it no name.
diag::Value name_of(const text::Sourced<std::string>& name, const diag::Term& otherwise);

/// Says whether what `or else show` names can be had.
void note_fallback(const plan::ViewPlan& view, diag::Diagnostic& d);

/// A number as the protocol would ask for it, and beside it what that is on the kit's camera, where
/// it is another one there.
diag::Value for_both(const plan::Facts& facts, const plan::FactRow& asked,
                     const plan::FactRow& here);

/// `actual` against `limit` as evidence, both facts that have values.
diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit);

// The rules: over one view, over one series, over the protocol as a whole.
#define NORMA_TAKES_view const plan::ViewPlan&,
#define NORMA_TAKES_series const plan::SeriesPlan&,
#define NORMA_TAKES_protocol
#define NORMA_RULE(scope, on, name) void name(const Context&, NORMA_TAKES_##scope Sink&);
#include "rules/rules.def"
#undef NORMA_RULE
#undef NORMA_TAKES_view
#undef NORMA_TAKES_series
#undef NORMA_TAKES_protocol

} // namespace norma::rules
