#include "emit/checklist.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "diag/questions.hpp"
#include "emit/act_words.hpp"
#include "emit/list_words.hpp"
#include "emit/not_checked.hpp"
#include "emit/subject_words.hpp"
#include "emit/tray.hpp"
#include "facts/facts.hpp"
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

using Findings = std::vector<const diag::Diagnostic*>;

/// Those of the protocol's own file first, then those of what it builds on, in the order in which
/// it does, then the kit's: a sheet is the same, whatever else is on the command line.
Findings in_order_of(const report::Report& report, const report::Held& held, Findings findings) {
  const std::vector<text::FileId>& read =
      report.files[static_cast<std::size_t>(held.about.file)].read;
  const auto place = [&](const diag::Diagnostic* d) {
    return std::find(read.begin(), read.end(), d->span.file) - read.begin();
  };
  std::stable_sort(findings.begin(), findings.end(),
                   [&](const auto* a, const auto* b) { return place(a) < place(b); });
  return findings;
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
      : report_(report), held_(held), plan_(held.plan), in_(in) {
    choose_views(series);
  }

  Document build() {
    const report::Unread unread = report::unread_of(report_, held_);
    if (!unread.whole()) {
      do_not_use(unread);
      return std::move(out_);
    }
    heading();
    against();
    cautions();
    before();
    view_by_view();
    after();
    sign_off();
    return std::move(out_);
  }

 private:
  /// A view of the list, the errors that stand against it (lived-with ones do not), and what of the
  /// camera nobody knows how to set; empty where it is settled, or no camera is known.
  struct Entry {
    SeriesView is;
    Findings errors;
    diag::Said unsettled;
    [[nodiscard]] bool can_be_had() const { return errors.empty() && unsettled.empty(); }
  };

  void add(BlockKind kind, const diag::Said& what) { emit::add(out_, kind, what, in_); }

  /// A fact in words; "" where it has no value.
  [[nodiscard]] std::string said(const plan::Facts& facts, const plan::FactRow& row) const {
    return in_.text(facts.value(row));
  }

  void choose_views(std::string_view wanted) {
    const model::Series* chosen = nullptr;
    for (const model::Series& s : plan_.protocol->series) {
      const bool longer = chosen == nullptr || s.entries.size() > chosen->entries.size();
      if (wanted.empty() ? longer : s.name == wanted) chosen = &s;
    }
    if (chosen != nullptr) series_ = chosen->name;
    for (const SeriesView& v : views_of(plan_, chosen)) {
      Entry entry{v, {}, unsettled_of(*v.view)};
      for (const diag::Diagnostic* d :
           in_order_of(report_, held_, report_.said_of(held_.about.of_view(place_of(v))))) {
        if (d->severity == Severity::error && d->accepted.empty()) entry.errors.push_back(d);
      }
      if (entry.can_be_had()) taken_.push_back(v);
      entries_.push_back(std::move(entry));
    }
  }

  [[nodiscard]] diag::Said unsettled_of(const plan::ViewPlan& v) const {
    const plan::Fact* aperture = v.facts.find(fact::aperture);
    const bool open = aperture != nullptr && aperture->state == plan::State::unknown;
    return plan_.kit != nullptr && open ? aperture_of(v.facts) : diag::Said();
  }

  [[nodiscard]] int place_of(const SeriesView& v) const {
    return static_cast<int>(v.view - plan_.views.data());
  }

  [[nodiscard]] diag::Value title() const {
    const model::Protocol& p = *plan_.protocol;
    return p.title.empty() ? p.name : p.title;
  }

  void protocol_line() {
    const model::Protocol& p = *plan_.protocol;
    diag::List which{{p.name}};
    if (p.revision.known()) which.items.emplace_back(list::protocol_revision(p.revision.get()));
    if (p.adopted.known())
      which.items.emplace_back(list::protocol_adopted(words::to_text(p.adopted.get())));
    if (p.group.known()) which.items.emplace_back(list::protocol_group(group_said(p.group.get())));
    diag::List line{{which}, true};
    if (!series_.empty()) line.items.emplace_back(list::protocol_series(series_));
    add(BlockKind::paragraph, list::protocol(line));
  }

  void kit_line() {
    const kit::Kit* kit = plan_.kit;
    const diag::Said name = kit == nullptr       ? list::no_kit()
                            : kit->title.known() ? diag::Said(kit->title.get())
                            : kit->name.known()  ? diag::Said(kit->name.get())
                                                 : list::kit_without_name();
    add(BlockKind::paragraph, list::kit_and_day(name, words::to_text(plan_.on)));
  }

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
    add(BlockKind::blank, list::record_number());
    add(BlockKind::blank, list::date());
  }

  /// Findings about this plan and everything that was not checked: never silent about either.
  void against() {
    add(BlockKind::heading, list::against());
    const Findings findings = in_order_of(report_, held_, report_.findings_for(held_));
    if (findings.empty()) add(BlockKind::paragraph, list::nothing_found());
    for (const Severity severity : {Severity::error, Severity::warning, Severity::advice}) {
      for (const diag::Diagnostic* d : findings) {
        if (d->severity == severity) add(BlockKind::bullet, finding(*d));
      }
    }
    add(BlockKind::heading, list::not_checked());
    for (std::string& line : not_checked_lines(report_, open_questions(), Naming::view, in_))
      out_.push_back({BlockKind::bullet, std::move(line)});
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
    for (const Entry& e : entries_)
      take(place_of(e.is));
    take(diag::Subject::none);
    return out;
  }

  void cautions() {
    add(BlockKind::heading, list::take_care());
    for (const diag::Term* line :
         {&list::care_consent, &list::care_force, &list::care_infection, &list::care_who_decides})
      add(BlockKind::bullet, (*line)());
  }

  void before() {
    add(BlockKind::heading, list::before());
    const model::Protocol& p = *plan_.protocol;
    add(BlockKind::tick, p.consent.known() && !p.consent->empty()
                             ? list::consent_for(purposes_of(p.consent.get()))
                             : list::consent());
    for (const TrayThing& one : tray_of(plan_, taken_, in_)) {
      const diag::Said thing = one.count > 1 ? list::tray_several(one.thing, one.count) : one.thing;
      add(BlockKind::tick, one.second_choice ? list::tray_second_choice(thing) : list::tray(thing));
    }
    add(BlockKind::tick, list::mirrors_apart());
    add(BlockKind::tick, list::camera_ready());
    const auto iso = common(fact::iso);
    const auto shutter = common(fact::shutter);
    if (!iso.empty()) add(BlockKind::tick, list::iso_for_all(iso));
    if (!shutter.empty()) add(BlockKind::tick, list::shutter_for_all(shutter));
    const auto balance = common(fact::white_balance);
    if (!balance.empty()) add(BlockKind::tick, list::white_balance_for_all(balance));
    const auto format = common(fact::file_format);
    if (!format.empty()) add(BlockKind::tick, list::file_format_for_all(format));
  }

  /// A fact's printed form where all views that can be had, second choices too, have the same; else
  /// "".
  [[nodiscard]] std::string common(const plan::FactRow& row) const {
    std::string value;
    for (const SeriesView& e : taken_) {
      const std::string text = said(e.view->facts, row);
      if (text.empty() || (!value.empty() && value != text)) return {};
      value = text;
    }
    return value;
  }

  /// The grey card of the series, before its first view or after its last that is none of the
  /// second choices.
  void grey_card(plan::When when) {
    std::vector<const plan::ViewPlan*> views;
    for (const SeriesView& e : taken_) {
      if (e.instead_of == nullptr) views.push_back(e.view);
    }
    const std::vector<plan::Act> card = plan::grey_card_acts(plan_, views);
    if (card.empty() || card.front().when != when) return;
    add(BlockKind::subheading,
        when == plan::When::before ? list::grey_card_first() : list::grey_card_last());
    for (const plan::Act& act : card)
      tick(act);
  }

  void view_by_view() {
    add(BlockKind::heading, list::view_by_view());
    grey_card(plan::When::before);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
      const bool instead = entries_[i].is.instead_of != nullptr;
      if (instead && (i == 0 || entries_[i - 1].is.instead_of == nullptr)) {
        grey_card(plan::When::after);
        add(BlockKind::heading, list::second_choices());
        add(BlockKind::paragraph, list::second_choices_when());
      }
      one_view(static_cast<int>(i) + 1, entries_[i]);
    }
    if (entries_.empty() || entries_.back().is.instead_of == nullptr) grey_card(plan::When::after);
  }

  void one_view(int number, const Entry& entry) {
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
    settings(v);
    acts(v, false);
    for (const auto& caution : m.cautions) {
      if (caution.known()) add(BlockKind::bullet, list::view_caution(caution.get()));
    }
    for (const auto& reason : m.stop_if) {
      if (reason.known()) add(BlockKind::bullet, list::view_stop_if(reason.get()));
    }
    if (m.consent.known()) add(BlockKind::bullet, list::view_consent(purposes_of(m.consent.get())));
    add(BlockKind::tick, list::taken());
    acts(v, true);
    if (entry.is.instead_of == nullptr) add(BlockKind::blank, list::not_taken());
  }

  /// Nothing to set and to tick: only why, and what stands in its place.
  void not_had(const Entry& entry) {
    if (entry.errors.empty()) add(BlockKind::bullet, list::not_settled(entry.unsettled));
    for (const diag::Diagnostic* d : entry.errors)
      add(BlockKind::bullet, list::not_had(d->message, d->definition->code));
    const model::View& m = *entry.is.view->view;
    bool something = m.if_not_possible.known(); // the line to write on is what it asks for
    if (m.or_else_view.known()) {
      const auto other = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) {
        return e.is.view->view->name == m.or_else_view.get();
      });
      if (other != entries_.end()) {
        const std::string& title = other->is.view->view->title;
        const int number = static_cast<int>(other - entries_.begin()) + 1;
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
    add(BlockKind::blank, list::not_taken());
  }

  void acts(const plan::ViewPlan& v, bool after) {
    for (const plan::Act& act : v.acts) {
      if ((act.when == plan::When::after) == after) tick(act);
    }
  }
  void tick(const plan::Act& act) {
    out_.push_back(
        {BlockKind::tick, fmt::format("{}: {}", who_text(act.who, in_), act_text(act, in_))});
  }

  /// A spread goes both ways, and what falls short has none to tell: no sign.
  static diag::Value unsigned_stops(Stops stops) {
    return diag::Measure{physics::Kind::stops, stops.base(), true};
  }
  static diag::Value unsigned_value(const plan::Facts& facts, const plan::FactDef<Stops>& def) {
    const auto value = facts.get(def);
    return value ? unsigned_stops(*value) : diag::Value();
  }

  static diag::Said aperture_of(const plan::Facts& facts) {
    if (facts.has(fact::aperture)) return list::aperture(facts.value(fact::aperture));
    const plan::Fact* found = facts.find(fact::aperture);
    if (found == nullptr || found->why.empty()) return list::aperture_not_settled();
    return found->state == plan::State::impossible ? list::aperture_impossible(found->why)
                                                   : list::aperture_not_settled_for(found->why);
  }

  /// Does the camera set ISO and shutter by itself?
  [[nodiscard]] bool camera_exposes() const {
    return plan_.kit != nullptr && plan_.kit->exposes_by_itself();
  }

  /// Empty where there is no lamp that flashes, or the camera sees to it.
  [[nodiscard]] diag::Said flash_of(const plan::ViewPlan& v) const {
    const kit::Lamp* lamp = v.chosen.lamp;
    if (camera_exposes()) return {};
    if (lamp == nullptr || (lamp->light.known() && lamp->light.get() == kit::LampLight::steady))
      return {};
    if (lamp->control.known() && lamp->control.get() == kit::LampControl::automatic)
      return list::flash_automatic();
    const diag::Value power = v.facts.value(fact::power);
    if (!power.empty()) {
      const diag::Value spread = unsigned_value(v.facts, fact::power_spread);
      return spread.empty() ? list::flash(power) : list::flash_spread(power, spread);
    }
    const auto shortfall = v.facts.get(fact::shortfall);
    if (shortfall && *shortfall > Stops{}) return list::flash_short(unsigned_stops(*shortfall));
    const plan::Fact* needed = v.facts.find(fact::power_needed);
    return needed == nullptr || needed->why.empty() ? list::flash_not_settled()
                                                    : list::flash_not_settled_for(needed->why);
  }

  void settings(const plan::ViewPlan& v) {
    const plan::Facts& facts = v.facts;
    diag::List set{{}, true};
    const auto say = [&](const diag::Sentence<1>& row, const plan::FactRow& about) {
      if (facts.has(about)) set.items.emplace_back(row(facts.value(about)));
    };
    const std::string ratio = said(facts, fact::ratio);
    const std::string mark = said(facts, fact::lens_mark);
    if (!ratio.empty())
      set.items.emplace_back(mark.empty() || mark == ratio ? list::ratio(ratio)
                                                           : list::ratio_mark(ratio, mark));
    set.items.emplace_back(aperture_of(facts));
    say(list::iso, fact::iso);
    say(list::shutter, fact::shutter);
    if (camera_exposes()) set.items.emplace_back(list::exposure_by_camera());
    say(list::white_balance, fact::white_balance);
    if (common(fact::file_format).empty()) say(list::file_format, fact::file_format);
    if (const diag::Said flash = flash_of(v); !flash.empty()) set.items.emplace_back(flash);
    say(list::lamp, fact::lamp);
    say(v.view->kind == model::ViewKind::face ? list::lens_to_face : list::lens_to_teeth,
        fact::working_distance);
    std::string out = in_.text(list::set(set));
    const std::string offset = said(facts, fact::offset);
    const std::string reference = said(facts, fact::exposure_reference);
    if (!offset.empty() && reference != v.view->name) {
      const diag::Value spread = unsigned_value(facts, fact::offset_spread);
      out += " " + in_.text(spread.empty() ? list::light_against(reference, offset)
                                           : list::light_against_spread(reference, offset, spread));
    }
    if (facts.has(fact::focus)) out += " " + in_.text(list::focus(facts.value(fact::focus)));
    out_.push_back({BlockKind::paragraph, std::move(out)});
  }

  void after() {
    add(BlockKind::heading, list::after());
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
    add(BlockKind::tick, list::reprocessing());
    for (const SeriesView& e : taken_) {
      if (e.view->facts.get(fact::turn).value_or(physics::Turn::none) == physics::Turn::none)
        continue;
      const auto& row = e.instead_of != nullptr ? list::turn_if_taken : list::turn;
      add(BlockKind::tick, row(e.view->view->name, e.view->facts.value(fact::turn)));
    }
  }

  void sign_off() {
    add(BlockKind::heading, list::sign_off());
    out_.push_back({BlockKind::blank, who_text(plan::Who::operator_, in_)});
    const bool assistant = std::any_of(taken_.begin(), taken_.end(), [](const SeriesView& e) {
      return std::any_of(e.view->acts.begin(), e.view->acts.end(),
                         [](const plan::Act& act) { return act.who == plan::Who::assistant; });
    });
    if (assistant) out_.push_back({BlockKind::blank, who_text(plan::Who::assistant, in_)});
    add(BlockKind::blank, list::looked_through());
  }

  const report::Report& report_;
  const report::Held& held_;
  const plan::Plan& plan_;
  const wording::Language& in_;
  std::vector<Entry> entries_;    // all of the list, in its order
  std::vector<SeriesView> taken_; // those of them that can be had
  std::string series_;
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
