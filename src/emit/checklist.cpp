#include "emit/checklist.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "diag/questions.hpp"
#include "emit/act_words.hpp"
#include "emit/list_settings.hpp"
#include "emit/list_words.hpp"
#include "emit/listed_views.hpp"
#include "emit/not_checked.hpp"
#include "emit/refused.hpp"
#include "emit/subject_words.hpp"
#include "emit/tray.hpp"
#include "facts/facts.hpp"
#include "plan/by_hand/by_hand.hpp"
#include "plan/walk/order.hpp"
#include "report/unread.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
using diag::Severity;

diag::List purposes_of(const std::vector<model::Purpose>& purposes) {
  return model::terms_of(purposes);
}

void add(Document& to, BlockKind kind, const diag::Said& what, const wording::Language& in) {
  to.push_back({kind, in.text(what)});
}

/// What a finding says, with its place.
diag::Said unread_line(const report::Report& report, const diag::Diagnostic& d) {
  if (!d.span.known()) return list::unread_somewhere(d.message, d.definition->code);
  const text::Source& source = report.sources[d.span.file];
  return list::unread_here(source.name(), static_cast<int>(source.place(d.span.begin).line),
                           d.message, d.definition->code);
}

void add_unread(Document& to, const report::Report& report, const Findings& unread,
                const wording::Language& in) {
  add(to, BlockKind::paragraph, list::do_not_use_why(), in);
  add(to, BlockKind::heading, list::unread(), in);
  for (const diag::Diagnostic* d : unread)
    add(to, BlockKind::bullet, unread_line(report, *d), in);
  const std::size_t more = report::errors_not_listed(report.findings);
  if (more > 0) add(to, BlockKind::bullet, list::unread_more(static_cast<int>(more)), in);
}

class Checklist {
 public:
  Checklist(const report::Report& report, const report::Held& held, std::string_view series,
            const wording::Language& in)
      : report_(report), held_(held), plan_(held.plan), in_(in),
        series_(listed_series(held.plan, series)), views_(report, held, series_),
        settings_(held.plan, views_.taken(), in) {}

  Document build() {
    const report::Unread unread = report::unread_of(report_, held_);
    if (!unread.whole()) {
      do_not_use(unread);
      return std::move(out_);
    }
    heading();
    before();
    view_by_view();
    after();
    sign_off();
    for_lead();
    return std::move(out_);
  }

 private:
  void add(BlockKind kind, const diag::Said& what) { emit::add(out_, kind, what, in_); }

  [[nodiscard]] diag::Value title() const { return title_of(*plan_.protocol); }

  void protocol_line() { add(BlockKind::paragraph, protocol_said(plan_, series_)); }
  void kit_line() { add(BlockKind::paragraph, kit_said(plan_)); }

  /// Nothing to tick: pages get parted from the one that warns of them, and what a line that could
  /// not be read asks for, nobody knows.
  void do_not_use(const report::Unread& unread) {
    add(BlockKind::title, list::do_not_use(title()));
    protocol_line();
    kit_line();
    add_unread(out_, report_, unread.findings, in_);
    add(BlockKind::heading, list::not_whole());
    const bool none_whole = std::none_of(unread.whole_views.begin(), unread.whole_views.end(),
                                         [](bool whole) { return whole; });
    if (none_whole) {
      add(BlockKind::bullet, list::not_whole_every_view());
      return;
    }
    for (std::size_t i = 0; i < plan_.views.size(); ++i) {
      if (!unread.whole_views[i])
        add(BlockKind::bullet,
            list::not_whole_view(plan_.views[i].view->title, plan_.views[i].view->name));
    }
  }

  void heading() {
    const model::Protocol& p = *plan_.protocol;
    add(BlockKind::title, list::title(title()));
    protocol_line();
    if (!p.fingerprint_pictures.empty()) {
      // Twelve digits tell apart all the revisions a clinic will ever have.
      add(BlockKind::paragraph, list::fingerprint(p.fingerprint_pictures.substr(0, 12)));
    }
    kit_line();
    add(BlockKind::paragraph, list::care_who_decides());
    join_paragraphs();
    fields({}, {write(list::record_number()), write(list::date()), write(list::time())});
    add(BlockKind::bullet, pointer());
  }

  /// The last paragraphs as one.
  void join_paragraphs() {
    while (out_.size() > 1 && out_[out_.size() - 2].kind == BlockKind::paragraph) {
      std::string last = std::move(out_.back().text);
      out_.pop_back();
      out_.back().text += " " + last;
    }
  }

  [[nodiscard]] Field tick_field(const diag::Said& what) const { return {in_.text(what), true}; }
  [[nodiscard]] Field write(const diag::Said& what) const { return {in_.text(what), false, true}; }
  [[nodiscard]] Field tick_and_write(const diag::Said& what) const {
    return {in_.text(what), true, true};
  }
  void fields(const diag::Said& what, std::vector<Field> several) {
    out_.push_back({BlockKind::fields, in_.text(what), std::move(several)});
  }

  /// Where on the first page it is told what stands against the plan: nothing said is never fine.
  [[nodiscard]] diag::Said pointer() const {
    std::array<int, 3> count{};
    for (const diag::Diagnostic* d : report_.findings_for(held_))
      ++count[static_cast<std::size_t>(d->severity)];
    const std::vector<std::string> open =
        not_checked_lines(report_, open_questions(), Naming::view, in_);
    const auto of = [&](Severity s) { return count[static_cast<std::size_t>(s)]; };
    return list::see_lead(of(Severity::error), of(Severity::warning), of(Severity::advice),
                          static_cast<int>(open.size()));
  }

  /// Findings about this plan and everything that was not checked: never silent about either.
  void for_lead() {
    add(BlockKind::sheet, list::lead_title(title()));
    protocol_line();
    kit_line();
    join_paragraphs();
    add(BlockKind::heading, list::against());
    const Findings findings = in_order_of(report_, held_, report_.findings_for(held_));
    if (findings.empty()) add(BlockKind::paragraph, list::nothing_found());
    for (const Severity severity : {Severity::error, Severity::warning, Severity::advice}) {
      for (const diag::Diagnostic* d : findings) {
        if (d->severity == severity) add(BlockKind::bullet, finding(*d));
      }
    }
    exact_positions();
    another_order();
    add(BlockKind::heading, list::not_checked());
    for (std::string& line : not_checked_lines(report_, open_questions(), Naming::view, in_))
      out_.push_back({BlockKind::bullet, std::move(line)});
    fields({}, {write(list::looked_through())});
  }

  /// With their numbers, as they were planned: what the views say as a person would.
  void exact_positions() {
    bool first = true;
    for (const SeriesView& e : views_.taken()) {
      const plan::ByHand by_hand(*e.view);
      diag::List exact{{}, true};
      for (const plan::Act& act : e.view->acts) {
        if (by_hand.told(act).other) exact.items.emplace_back(act_text(act, in_));
      }
      if (exact.items.empty()) continue;
      if (first) add(BlockKind::heading, list::exact_positions());
      first = false;
      add(BlockKind::bullet, list::exact_position(e.view->view->title, exact));
    }
  }

  /// An order of the views that are taken that asks less; it is told, and nothing is changed.
  void another_order() {
    const std::vector<const plan::ViewPlan*> given = first_choices(views_.taken());
    const std::vector<const plan::ViewPlan*> better = plan::better_order(plan_, given);
    if (better.empty()) return;
    const plan::Effort as_it_is = plan::effort_of(plan_, given);
    const plan::Effort effort = plan::effort_of(plan_, better);
    diag::List names;
    for (const plan::ViewPlan* v : better)
      names.items.emplace_back(v->view->name);
    add(BlockKind::heading, list::order());
    add(BlockKind::bullet,
        list::order_given(as_it_is.insertions, minutes_of(as_it_is), as_it_is.changes));
    add(BlockKind::bullet,
        list::order_better(names, effort.insertions, minutes_of(effort), effort.changes));
  }

  [[nodiscard]] diag::Said finding(const diag::Diagnostic& d) const {
    const std::string views = views_text(labels_here(d), in_);
    const diag::Said severity = severity_said(d.severity);
    diag::Said out = views.empty()
                         ? list::finding(severity, d.message, d.definition->code)
                         : list::finding_of_views(severity, views, d.message, d.definition->code);
    return d.accepted.empty() ? out : list::finding_accepted(std::move(out), d.accepted);
  }

  /// The views of this protocol that a finding speaks of; it may speak of others, too.
  [[nodiscard]] std::vector<std::string> labels_here(const diag::Diagnostic& d) const {
    std::vector<diag::Subject> here;
    std::copy_if(d.about.begin(), d.about.end(), std::back_inserter(here),
                 [&](const diag::Subject& one) { return one.meets(held_.about); });
    return view_labels(report_, here, in_);
  }

  /// Those about the views of the list, in its order, then those about all of it.
  [[nodiscard]] std::vector<const report::NotChecked*> open_questions() const {
    const std::vector<const report::NotChecked*> all = report_.not_checked_for(held_);
    std::vector<const report::NotChecked*> out;
    const auto take = [&](int view) {
      std::copy_if(
          all.begin(), all.end(), std::back_inserter(out), [&](const report::NotChecked* n) {
            // Whether an exception meets anything is asked of all kits together.
            return n->about.view == view && n->what.row != &diag::question::accepted_comes_up;
          });
    };
    for (const ListedView& e : views_.all())
      take(static_cast<int>(e.is.view - plan_.views.data()));
    take(diag::Subject::none);
    return out;
  }

  void before() {
    add(BlockKind::heading, list::before());
    const model::Protocol& p = *plan_.protocol;
    add(BlockKind::tick, list::identity());
    add(BlockKind::tick, p.consent.known() && !p.consent->empty()
                             ? list::consent_for(purposes_of(p.consent.get()))
                             : list::consent());
    add(BlockKind::bullet, list::care_consent());
    if (views_.any_in_mouth()) {
      add(BlockKind::tick, list::asked());
      add(BlockKind::tick, list::eyes());
    }
    add(BlockKind::tick, list::camera_ready());
    const diag::List& set = settings_.for_all();
    if (!set.items.empty()) add(BlockKind::tick, list::set_for_all(set));
    std::vector<Field> tray;
    for (const TrayThing& one : tray_of(plan_, views_.taken(), in_)) {
      const diag::Said thing = one.count > 1 ? list::tray_several(one.thing, one.count) : one.thing;
      tray.push_back(tick_field(one.second_choice ? list::tray_second_choice(thing) : thing));
    }
    if (!tray.empty()) fields(list::tray(), std::move(tray));
    add(BlockKind::tick, list::mirrors_apart());
  }

  /// The grey card of the series, before its first view or after its last that is none of the
  /// second choices.
  void grey_card(plan::When when) {
    const std::vector<plan::Act> card = plan::grey_card_acts(plan_, first_choices(views_.taken()));
    if (card.empty() || card.front().when != when) return;
    add(BlockKind::subheading,
        when == plan::When::before ? list::grey_card_first() : list::grey_card_last());
    for (const plan::Act& act : card)
      bullet(act);
    fields({}, {tick_and_write(list::row_taken())});
  }

  void view_by_view() {
    const plan::Effort effort = plan::effort_of(plan_, first_choices(views_.taken()));
    add(BlockKind::heading, views_.any_in_mouth()
                                ? list::view_by_view_asks(effort.insertions, minutes_of(effort))
                                : list::view_by_view());
    if (views_.any_in_mouth()) add(BlockKind::bullet, list::care_force());
    add(BlockKind::bullet, list::judged());
    if (views_.taken().size() > 1) add(BlockKind::bullet, list::only_changes());
    for_every_view();
    grey_card(plan::When::before);
    for (std::size_t i = 0; i < views_.all().size(); ++i) {
      const bool instead = views_.all()[i].is.instead_of != nullptr;
      if (instead && (i == 0 || views_.all()[i - 1].is.instead_of == nullptr)) {
        grey_card(plan::When::after);
        add(BlockKind::heading, list::second_choices());
        add(BlockKind::paragraph, list::second_choices_when());
      }
      one_view(static_cast<int>(i) + 1, views_.all()[i]);
    }
    if (views_.all().empty() || views_.all().back().is.instead_of == nullptr)
      grey_card(plan::When::after);
  }

  [[nodiscard]] static diag::Measure minutes_of(const plan::Effort& effort) {
    return {physics::Kind::tenths, effort.minutes.value()};
  }

  void for_every_view() {
    std::vector<model::ViewKind> told;
    for (const SeriesView& v : views_.taken()) {
      const model::View& m = *v.view->view;
      if (views_.taken_of(m.kind) < 2 || std::find(told.begin(), told.end(), m.kind) != told.end())
        continue;
      told.push_back(m.kind);
      const auto& row = views_.taken_of(m.kind) == views_.taken().size() ? list::in_every_view
                        : m.kind == model::ViewKind::mouth               ? list::in_every_mouth_view
                                                                         : list::in_every_face_view;
      diag::List all{{}, true};
      std::vector<const plan::ViewPlan*> alike;
      for (const SeriesView& one : views_.taken()) {
        if (one.view->view->kind == m.kind) alike.push_back(one.view);
      }
      for (const plan::Act& act : views_.for_all(m.kind))
        all.items.emplace_back(act_text(plan::told_for_all(alike, act), in_));
      if (!all.items.empty()) add(BlockKind::bullet, row(all));
      for (const diag::Said& remark : remarks(m, true))
        add(BlockKind::bullet, row(remark));
    }
  }

  /// What a view warns of, in the protocol's words: what counts for every view, or the rest.
  [[nodiscard]] std::vector<diag::Said> remarks(const model::View& m, bool for_all) const {
    std::vector<diag::Said> out;
    const auto say = [&](ListedViews::Texts texts, const diag::Sentence<1>& row) {
      for (const auto& one : m.*texts) {
        if (one.known() && views_.is_for_all(m.kind, texts, one.get()) == for_all)
          out.push_back(row(one.get()));
      }
    };
    say(&model::View::cautions, list::view_caution);
    say(&model::View::stop_if, list::view_stop_if);
    return out;
  }

  void one_view(int number, const ListedView& entry) {
    const plan::ViewPlan& v = *entry.is.view;
    const model::View& m = *v.view;
    diag::Said title = m.code.known() ? list::view_with_code(number, m.title, m.code.get()->code)
                                      : list::view(number, m.title);
    if (entry.is.optional) title = list::view_optional(std::move(title));
    if (!entry.can_be_had()) {
      add(BlockKind::subheading, entry.errors.empty() ? list::view_not_settled(std::move(title))
                                                      : list::view_not_had(std::move(title)));
      not_had(entry);
      return;
    }
    add(BlockKind::subheading, title);
    const std::string set = settings_.of(entry.step, views_.set_before(entry));
    if (!set.empty()) out_.push_back({BlockKind::bullet, set});
    for (const diag::Said& remark : remarks(m, false))
      add(BlockKind::bullet, remark);
    if (m.consent.known()) add(BlockKind::bullet, list::view_consent(purposes_of(m.consent.get())));
    diag::List stays{{}, true};
    if (set.empty()) stays.items.emplace_back(list::settings());
    const plan::ByHand by_hand(v);
    for (const plan::Act& act : entry.step.stays)
      stays.items.emplace_back(act_text(by_hand.told(act).act, in_));
    if (!stays.items.empty()) add(BlockKind::bullet, list::stays(stays));
    acts(m, by_hand, entry.step.acts);
    if (entry.is.instead_of != nullptr) go_on_after(entry);
    fields({}, {tick_and_write(list::row_taken()), tick_and_write(list::row_again())});
    fields({}, {tick_and_write(list::row_not_possible()), write(list::row_settings())});
  }

  /// One line for what one person does without a break; what goes in has a line of its own.
  void acts(const model::View& m, const plan::ByHand& by_hand, const std::vector<plan::Act>& all) {
    const plan::Act* before = nullptr;
    for (const plan::Act& act : all) {
      if (views_.is_for_all(m.kind, act)) continue;
      const plan::Act told = by_hand.told(act).act;
      if (before != nullptr && before->who == act.who && before->when == act.when &&
          runs_on(before->verb) && runs_on(act.verb)) {
        out_.back().text += "; " + act_text(told, in_);
      } else {
        bullet(told);
      }
      before = &act;
    }
  }
  static bool runs_on(plan::Verb verb) {
    switch (verb) {
    case plan::Verb::no_longer:
    case plan::Verb::put_in_retractor:
    case plan::Verb::keep_retractor:
    case plan::Verb::put_in_mirror:
    case plan::Verb::turn_over_mirror:
    case plan::Verb::put_mirror_in_again:
    case plan::Verb::move_mirror:
    case plan::Verb::place:
    case plan::Verb::blow_air:
    case plan::Verb::as_protocol_says:
    case plan::Verb::wait: return false;
    default: return true;
    }
  }

  /// The view that comes after a second choice starts from that, not from what it stands in for.
  void go_on_after(const ListedView& second) {
    const ListedView* next = views_.next_after(second);
    if (next == nullptr) return;
    const auto instead = [&](diag::Value what) {
      add(BlockKind::bullet, list::then_next(views_.number_of(*next), std::move(what)));
    };
    const plan::Step so = plan::take(plan_, second.step.after, *next->is.view);
    std::string set = settings_.of(so, second.is.view);
    if (!set.empty() && set != settings_.of(next->step, views_.set_before(*next)))
      instead(std::move(set));
    diag::List other{{}, true};
    const plan::ByHand by_hand(*next->is.view);
    const auto put = [&](const std::vector<plan::Act>& acts, const std::vector<plan::Act>& listed) {
      for (const plan::Act& act : acts) {
        const bool there = std::any_of(listed.begin(), listed.end(),
                                       [&](const plan::Act& one) { return same(act, one); });
        if (!there && plan::changes(act)) other.items.emplace_back(line_of(by_hand.told(act).act));
      }
    };
    put(so.acts, next->step.acts);
    put(so.stays, next->step.stays);
    if (!other.items.empty()) instead(std::move(other));
  }

  /// Nothing to set and to tick: only why, and what stands in its place.
  void not_had(const ListedView& entry) {
    if (entry.errors.empty()) add(BlockKind::bullet, list::not_settled(entry.unsettled));
    for (const diag::Diagnostic* d : entry.errors)
      add(BlockKind::bullet, list::not_had(d->message, d->definition->code));
    const model::View& m = *entry.is.view->view;
    bool something = m.if_not_possible.known(); // the line to write on is what it asks for
    if (m.or_else_view.known()) {
      const auto other =
          std::find_if(views_.all().begin(), views_.all().end(), [&](const ListedView& e) {
            return e.is.view->view->name == m.or_else_view.get();
          });
      if (other != views_.all().end()) {
        const std::string& title = other->is.view->view->title;
        const int number = views_.number_of(*other);
        add(BlockKind::bullet, other->can_be_had() ? list::instead_view(title, number)
                                                   : list::instead_view_not_had(title, number));
        something = true;
      }
    }
    for (const plan::Act& act : entry.is.view->acts) {
      if (act.verb != plan::Verb::show_at_least) continue;
      add(BlockKind::bullet, list::instead_less(act.objects.front()));
      something = true;
    }
    if (!something) add(BlockKind::bullet, list::instead_nothing());
    if (!views_.taken().empty()) add(BlockKind::bullet, list::passed_over());
    add(BlockKind::blank, list::not_taken());
  }

  [[nodiscard]] std::string line_of(const plan::Act& act) const {
    return fmt::format("{}: {}", who_text(act.who, in_), act_text(act, in_));
  }
  void bullet(const plan::Act& act) { out_.push_back({BlockKind::bullet, line_of(act)}); }

  void after() {
    add(BlockKind::heading, list::after());
    for (const plan::Act& act : plan::clear(plan_, views_.last()))
      out_.push_back({BlockKind::tick, line_of(act)});
    if (views_.any_in_mouth()) {
      add(BlockKind::tick, list::nothing_left());
    }
    const kit::Kit* kit = plan_.kit;
    const bool prints =
        kit != nullptr && kit->pictures.known() && kit->pictures.get() == kit::Pictures::prints;
    const bool uncropped =
        plan_.protocol->crops.known() && plan_.protocol->crops.get() == model::Crops::none;
    add(BlockKind::tick, list::every_view_taken());
    add(BlockKind::tick, prints      ? list::prints_kept()
                         : uncropped ? list::originals_kept_uncropped()
                                     : list::originals_kept());
    add(BlockKind::tick, prints ? list::no_name_on_prints() : list::no_name_on_files());
    for (const SeriesView& e : views_.taken()) {
      if (e.view->facts.get(fact::turn).value_or(physics::Turn::none) == physics::Turn::none)
        continue;
      const auto& row = e.instead_of != nullptr ? list::turn_if_taken : list::turn;
      add(BlockKind::tick, row(e.view->view->name, e.view->facts.value(fact::turn)));
    }
    if (series_ != nullptr && !series_->rows.empty()) {
      diag::List rows{{}, true};
      for (const std::vector<std::string>& row : series_->rows)
        rows.items.emplace_back(diag::List{{row.begin(), row.end()}});
      add(BlockKind::bullet, list::laid_out(rows));
    }
    add(BlockKind::tick, list::reprocessing());
    add(BlockKind::bullet, list::care_infection());
    fields({}, {write(list::faults())});
  }

  void sign_off() {
    const bool assistant =
        std::any_of(views_.taken().begin(), views_.taken().end(), [](const SeriesView& e) {
          return std::any_of(e.view->acts.begin(), e.view->acts.end(),
                             [](const plan::Act& act) { return act.who == plan::Who::assistant; });
        });
    const auto person = [&](plan::Who who) { return Field{who_text(who, in_), false, true}; };
    std::vector<Field> who{person(plan::Who::operator_)};
    if (assistant) who.push_back(person(plan::Who::assistant));
    fields(list::sign_off(), std::move(who));
  }

  const report::Report& report_;
  const report::Held& held_;
  const plan::Plan& plan_;
  const wording::Language& in_;
  const model::Series* series_; // null: all views
  ListedViews views_;
  SettingWords settings_;
  Document out_;
};

} // namespace

Document checklist(const report::Report& report, const report::Held& held, std::string_view series,
                   const wording::Language& in) {
  return Checklist(report, held, series, in).build();
}

Document no_checklist(const report::Report& report, const report::File& file,
                      const wording::Language& in) {
  Findings unread;
  for (const diag::Diagnostic& d : report.findings.all()) {
    const bool here = std::find(file.read.begin(), file.read.end(), d.span.file) != file.read.end();
    if (here && report::tells_of_unread(d)) unread.push_back(&d);
  }
  Document out;
  add(out, BlockKind::title, list::do_not_use_no_protocol(file.path), in);
  add_unread(out, report, unread, in);
  return out;
}

} // namespace norma::emit
