#include "emit/plan_json.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "emit/hands.hpp"
#include "emit/listed_views.hpp"
#include "emit/plan_scene.hpp"
#include "emit/plan_values.hpp"
#include "emit/told.hpp"
#include "emit/tray.hpp"
#include "emit/view_drawings.hpp"
#include "facts/facts.hpp"
#include "plan/walk/order.hpp"
#include "planfile/planfile.hpp"
#include "report/unread.hpp"
#include "text/digest.hpp"
#include "text/version.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
namespace file = planfile;
namespace phrase = plan::phrase;
using diag::Subject;

file::Index index_of(text::FileId id) { return {static_cast<std::int64_t>(id)}; }
file::Index index_of(std::size_t at) { return {static_cast<std::int64_t>(at)}; }

file::Maybe<std::string> unless_empty(std::string_view text) {
  if (text.empty()) return std::nullopt;
  return std::string(text);
}

std::vector<file::Hands> hands_of(const plan::Facts& facts) {
  std::vector<file::Hands> out(3);
  out[0].who = file::Who::patient;
  out[1].who = file::Who::assistant;
  out[2].who = file::Who::operator_;
  const auto hands = [&](const plan::FactDef<int>& row) -> file::Maybe<std::int64_t> {
    const auto n = facts.get(row);
    return n ? file::Maybe<std::int64_t>(*n) : std::nullopt;
  };
  out[0].hands = hands(fact::patient_hands);
  out[1].hands = hands(fact::assistant_hands);
  // Both of the operator's are on the camera (common practice, no source).
  constexpr std::int64_t both = 2;
  out[2].on_camera = both;
  if (const auto more = hands(fact::operator_hands)) out[2].hands = both + *more;
  const auto held = held_by(facts);
  for (std::size_t who = 0; who < held.size(); ++who) {
    for (const diag::Value& one : held[who]) {
      const file::Value things = file_value(one);
      if (const auto* list = std::get_if<std::vector<file::Value>>(&things.is))
        out[who].holds = *list;
    }
  }
  return out;
}

std::vector<file::Setting> settings_of(const plan::ViewPlan& v) {
  std::vector<file::Setting> out;
  const auto set = [&](file::SettingId id, const plan::FactRow& row,
                       const plan::FactRow* spread = nullptr, bool automatic = false) {
    file::Setting one{id, file::SettingHow::as_fact, fact_id(row), {}};
    if (automatic)
      one.how = file::SettingHow::automatic;
    else if (!v.facts.has(row))
      one.how = file::SettingHow::not_settled;
    else if (spread != nullptr && v.facts.has(*spread))
      one.spread = fact_id(*spread);
    out.push_back(one);
  };
  const auto set_if_there = [&](file::SettingId id, const plan::FactRow& row,
                                const plan::FactRow* spread = nullptr) {
    if (v.facts.find(row) != nullptr) set(id, row, spread);
  };
  const kit::Lamp* lamp = v.chosen.lamp;
  const bool camera = v.work->kit != nullptr && v.work->kit->exposes_by_itself();
  const bool automatic = camera || (lamp != nullptr && lamp->control.known() &&
                                    lamp->control.get() == kit::LampControl::automatic);
  set(file::SettingId::ratio, fact::ratio);
  set_if_there(file::SettingId::lens_mark, fact::lens_mark);
  set(file::SettingId::aperture, fact::aperture);
  set(file::SettingId::iso, fact::iso, nullptr, camera && !v.facts.has(fact::iso));
  set(file::SettingId::exposure_time, fact::shutter, nullptr, camera);
  set_if_there(file::SettingId::white_balance, fact::white_balance);
  set_if_there(file::SettingId::file_format, fact::file_format);
  set(file::SettingId::flash_power, fact::power, &fact::power_spread, automatic);
  set(file::SettingId::lamp, fact::lamp);
  set(file::SettingId::working_distance, fact::working_distance);
  set_if_there(file::SettingId::exposure_offset, fact::offset, &fact::offset_spread);
  set(file::SettingId::focus, fact::focus);
  return out;
}

file::SettingId setting_of(plan::Part part) {
  switch (part) {
  case plan::Part::aperture: return file::SettingId::aperture;
  case plan::Part::iso: return file::SettingId::iso;
  case plan::Part::shutter: return file::SettingId::exposure_time;
  case plan::Part::white_balance: return file::SettingId::white_balance;
  case plan::Part::file_format: return file::SettingId::file_format;
  case plan::Part::flash: return file::SettingId::flash_power;
  case plan::Part::lamp: return file::SettingId::lamp;
  case plan::Part::offset: return file::SettingId::exposure_offset;
  default: return file::SettingId::ratio;
  }
}

file::Effort file_effort(const plan::Effort& effort) {
  return {effort.insertions, effort.changes, effort.minutes.value()};
}

class DocumentMaker {
 public:
  DocumentMaker(const report::Report& report, std::string_view view, const wording::Language& in)
      : report_(report), only_(view), in_(in), facts_(in) {}

  file::Document make() {
    out_.norma.version = std::string(text::version());
    out_.on.iso = words::to_text(report_.on);
    files();
    findings();
    std::map<int, std::vector<const report::NotChecked*>> by_file;
    for (const report::NotChecked& n : report_.not_checked) {
      if (n.about == Subject{})
        out_.not_checked.push_back(question(n.what, n.missing, in_));
      else
        by_file[n.about.file].push_back(&n);
    }
    for (const report::Held& held : report_.held) {
      asked_.clear();
      for (const int at : {Subject::none, held.about.file}) {
        for (const report::NotChecked* n : by_file[at]) {
          if (n->about.meets(held.about)) asked_.push_back(n);
        }
      }
      out_.plans.push_back(plan(held));
      if (!only_.empty()) continue;
      for (std::size_t i = 0; i < held.plan.views.size(); ++i)
        made_.try_emplace(held.plan.views[i].work.get(), out_.plans.size() - 1, i);
    }
    out_.fact_rows = facts_.rows();
    return std::move(out_);
  }

 private:
  void files() {
    for (std::size_t i = 0; i < report_.sources.size(); ++i) {
      const text::Source& source = report_.sources[static_cast<text::FileId>(i)];
      out_.files.push_back({source.name(), file::FileRole::base, {text::sha256(source.bytes())}});
    }
    for (const report::File& f : report_.files) {
      if (!f.read.empty()) role(f.read.front()) = file::FileRole::protocol;
    }
    for (const report::Kit& kit : report_.kits) {
      role(kit.file) = file::FileRole::kit;
      out_.kits.push_back({kit.name,
                           kit.kit != nullptr && kit.kit->title.known()
                               ? file::Maybe<std::string>(kit.kit->title.get())
                               : std::nullopt,
                           index_of(kit.file)});
    }
  }
  file::FileRole& role(text::FileId id) { return out_.files[static_cast<std::size_t>(id)].role; }

  // Findings --------------------------------------------------------------------------------------

  void findings() {
    const AllTold told = told_apart(report_);
    for (std::size_t i = 0; i < told.list.size(); ++i) {
      places_of_[told.list[i].finding].emplace_back(told.list[i].about, i);
      out_.findings.push_back(finding(told.list[i]));
      if (report::tells_of_unread(*told.list[i].finding)) out_.complete = false;
    }
    const auto left = [&](diag::Severity s) {
      return static_cast<std::int64_t>(told.left_out[static_cast<std::size_t>(s)]);
    };
    out_.not_listed = {left(diag::Severity::error), left(diag::Severity::warning),
                       left(diag::Severity::advice)};
    // Of those that are not listed nobody can tell what they are about.
    if (out_.not_listed.errors > 0) out_.complete = false;
  }

  file::SourcePlace place(text::Span span) const {
    const text::Source& source = report_.sources[span.file];
    const text::Place begin = source.place(span.begin);
    const text::Place end = source.place(span.end);
    return {index_of(span.file), begin.line, begin.column, end.line, end.column};
  }

  file::About about(const Subject& subject) const {
    const diag::SubjectNames names = report_.names(subject);
    file::About out;
    if (subject.file != Subject::none) {
      const auto& read = report_.files[static_cast<std::size_t>(subject.file)].read;
      if (!read.empty()) out.file = index_of(read.front());
    }
    out.group = unless_empty(names.group);
    if (subject.kit != Subject::none) out.kit = index_of(static_cast<std::size_t>(subject.kit));
    out.view = unless_empty(names.view);
    out.series = unless_empty(names.series);
    return out;
  }

  file::Finding finding(const Told& told) const {
    const diag::Diagnostic& d = *told.finding;
    file::Finding out;
    out.id = told.id;
    out.code = file::FindingCode::of(d.definition->code).value();
    out.name = file::FindingName::of(d.definition->name).value();
    out.severity = static_cast<file::Severity>(d.severity);
    out.message = sentence(d.message, in_);
    out.accepted_because = unless_empty(d.accepted);
    if (told.about != nullptr) out.about.push_back(about(*told.about));
    if (d.span.known()) out.place = place(d.span);
    for (const diag::Evidence& e : d.evidence) {
      out.evidence.push_back({sentence(e.quantity, in_), amount(e.kind, e.actual),
                              static_cast<file::RelationId>(e.relation), amount(e.kind, e.limit)});
    }
    for (const diag::Said& note : d.notes)
      out.notes.push_back(sentence(note, in_));
    for (const diag::Said& help : d.help)
      out.help.push_back(sentence(help, in_));
    return out;
  }

  // Plans -----------------------------------------------------------------------------------------

  file::Plan plan(const report::Held& held) {
    const model::Protocol& p = *held.protocol;
    file::Plan out;
    out.protocol = p.name;
    out.title = p.title;
    if (p.group.known()) out.group = model::to_text(p.group.get());
    const report::File& from = report_.files[static_cast<std::size_t>(held.about.file)];
    out.file = index_of(from.read.front());
    for (std::size_t i = 1; i < from.read.size(); ++i)
      out.bases.push_back(index_of(from.read[i]));
    if (held.about.kit != Subject::none)
      out.kit = index_of(static_cast<std::size_t>(held.about.kit));
    if (!p.fingerprint_everything.empty())
      out.fingerprint = file::Fingerprint{{p.fingerprint_pictures}, {p.fingerprint_everything}};
    out.asked = asked_words(p.header);
    for (const model::Edit& e : p.edits)
      out.edits.push_back({static_cast<file::EditId>(e.what), e.name, unless_empty(e.because)});
    for (const model::Exception& e : p.exceptions) {
      out.accepted.push_back({file::FindingName::of(e.finding).value(), unless_empty(e.view),
                              unless_empty(e.series), e.kits,
                              unless_empty(e.until ? words::to_text(*e.until) : ""), e.because});
    }
    facts_.add(held.plan.facts, out.facts);
    Subject first = held.about;
    first.file = report_.first_of(first.file);
    for (const diag::Diagnostic* d : report_.findings_for(held)) {
      for (const auto& [subject, place] : places_of_[d]) {
        if (subject == nullptr || subject->meets(first)) out.findings.push_back(index_of(place));
      }
    }
    const report::Unread unread = report::unread_of(report_, held);
    out.complete = unread.whole();
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      const plan::ViewPlan& v = held.plan.views[i];
      if (!only_.empty() && v.view->name != only_) continue;
      out.views.push_back(view(p, v));
      out.views.back().complete = unread.whole_views[i];
      out.views.back().not_checked = questions(held.about.of_view(static_cast<int>(i)));
    }
    if (only_.empty()) add_series(held, out);
    out.not_checked = questions(held.about);
    return out;
  }

  std::vector<file::Question> questions(const Subject& about) const {
    std::vector<file::Question> out;
    for (const report::NotChecked* n : asked_) {
      if (n->about.view == about.view && n->about.series == about.series)
        out.push_back(question(n->what, n->missing, in_));
    }
    return out;
  }

  file::View view(const model::Protocol& p, const plan::ViewPlan& v) {
    const model::View& m = *v.view;
    file::View out;
    out.name = m.name;
    out.title = m.title;
    out.kind = static_cast<file::ViewKind>(m.kind);
    if (m.code.known()) {
      const words::ViewCode& code = *m.code.get();
      out.code = file::ViewCode{std::string(code.code), std::string(code.term)};
    }
    if (m.content >= 0) out.asked = asked_words(p.contents[static_cast<std::size_t>(m.content)]);
    if (!m.made_from.empty()) out.made_from = file::MadeFrom{m.made_from, unless_empty(m.crossing)};
    facts_.add(v.facts, out.facts);
    facts_.add(v.company, out.facts);
    out.settings = settings_of(v);
    out.hands = hands_of(v.facts);
    for (const plan::Act& act : v.acts)
      out.acts.push_back(file_act(act, in_));
    out.shown = file_shown(v.shown);
    // Views that say the same have one scene: it is projected once.
    const auto made = made_.find(v.work.get());
    if (v.scene && made != made_.end()) {
      const file::View& other = out_.plans[made->second.first].views[made->second.second];
      out.viewfinder = other.viewfinder;
      out.scene = other.scene;
    } else if (v.scene) {
      const physics::Mouth mouth = physics::make_mouth(v.scene->mouth);
      out.viewfinder = file_viewfinder(*v.scene, mouth);
      out.scene = file_scene(*v.scene, mouth);
    } else {
      const diag::Said missing = missing_for_scene(v);
      if (!missing.empty()) out.no_scene = sentence(missing, in_);
    }
    return out;
  }

  void add_series(const report::Held& held, file::Plan& to) {
    const plan::Plan& p = held.plan;
    const auto acts = [&](const std::vector<plan::Act>& all, std::vector<file::Act>& out) {
      for (const plan::Act& act : all)
        out.push_back(file_act(act, in_));
    };
    const auto fill = [&](file::Series& out, const model::Series* series) {
      const ListedViews listed(report_, held, series);
      std::vector<SeriesView> views;
      for (const ListedView& v : listed.all()) {
        views.push_back(v.is);
        file::Entry& entry = out.views.emplace_back();
        entry.view = v.is.view->view->name;
        entry.optional = v.is.optional;
        if (v.is.instead_of != nullptr) entry.instead_of = v.is.instead_of->view->name;
        if (!v.can_be_had()) continue;
        file::Changes& changes = entry.changes.emplace();
        acts(v.step.acts, changes.acts);
        acts(v.step.stays, changes.stays);
        for (const plan::Part part : v.step.set)
          changes.set.push_back(setting_of(part));
        changes.insertions = v.step.insertions;
      }
      for (const TrayThing& t : tray_of(p, views, in_))
        out.tray.push_back({sentence(t.thing, in_), t.count, t.second_choice});
      acts(plan::grey_card_acts(p, first_choices(views)), out.acts);
      acts(plan::clear(p, listed.last()), out.clear);
      const std::vector<const plan::ViewPlan*> given = first_choices(listed.taken());
      out.effort = file_effort(plan::effort_of(p, given));
      // Each takes a hundredth of a second: of very many series the first ones are looked at.
      constexpr std::size_t most_reordered = 50;
      if (to.series.size() > most_reordered) return;
      const std::vector<const plan::ViewPlan*> better = plan::better_order(p, given);
      if (better.empty()) return;
      file::OtherOrder& other = out.other_order.emplace();
      for (const plan::ViewPlan* v : better)
        other.views.push_back(v->view->name);
      other.effort = file_effort(plan::effort_of(p, better));
    };
    for (std::size_t i = 0; i < p.series.size(); ++i) {
      const plan::SeriesPlan& s = p.series[i];
      file::Series& out = to.series.emplace_back();
      out.name = s.series->name;
      out.complete = s.series->whole;
      for (const std::vector<std::string>& row : s.series->rows)
        out.laid_out.push_back({row});
      fill(out, s.series);
      facts_.add(s.facts, out.facts);
      out.not_checked = questions(held.about.of_series(static_cast<int>(i)));
    }
    if (p.series.empty()) fill(to.series.emplace_back(), nullptr);
  }

  const report::Report& report_;
  std::string_view only_;
  const wording::Language& in_;
  file::Document out_;
  FactWriter facts_;
  /// Of each finding: its subjects (null: none) and their places in the document.
  std::unordered_map<const diag::Diagnostic*, std::vector<std::pair<const Subject*, std::size_t>>>
      places_of_;
  /// Of what was worked out, in which plan and view of it it stands.
  std::unordered_map<const plan::Work*, std::pair<std::size_t, std::size_t>> made_;
  std::vector<const report::NotChecked*> asked_; // of the plan at hand
};

} // namespace

file::Document plan_document(const report::Report& report, const wording::Language& in,
                             std::string_view view) {
  return DocumentMaker(report, view, in).make();
}

std::string plan_json(const report::Report& report, const wording::Language& in,
                      std::string_view view) {
  return planfile::write(plan_document(report, in, view));
}

} // namespace norma::emit
