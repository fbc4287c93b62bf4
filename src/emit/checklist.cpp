#include "emit/checklist.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "diag/questions.hpp"
#include "emit/act_words.hpp"
#include "emit/not_checked.hpp"
#include "emit/subject_words.hpp"
#include "emit/tray.hpp"
#include "facts/facts.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
using diag::Severity;

/// A fact in words; "" where it has no value.
std::string said(const plan::Facts& facts, const plan::FactRow& row) {
  return wording::text(facts.value(row));
}

std::string purposes_text(const std::vector<model::Purpose>& purposes) {
  return wording::text(model::terms_of(purposes));
}

class Checklist {
 public:
  Checklist(const report::Report& report, const report::Held& held, std::string_view series)
      : report_(report), held_(held), plan_(held.plan) {
    choose_views(series);
  }

  Document build() {
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
  void add(BlockKind kind, std::string text) { out_.push_back({kind, std::move(text)}); }

  void choose_views(std::string_view wanted) {
    const model::Series* chosen = nullptr;
    for (const model::Series& s : plan_.protocol->series) {
      const bool longer = chosen == nullptr || s.entries.size() > chosen->entries.size();
      if (wanted.empty() ? longer : s.name == wanted) chosen = &s;
    }
    if (chosen != nullptr) series_ = chosen->name;
    entries_ = views_of(plan_, chosen);
  }

  [[nodiscard]] std::string kit_name() const {
    if (plan_.kit == nullptr) return "no kit";
    return plan_.kit->title.value_or(plan_.kit->name.value_or("kit"));
  }

  void heading() {
    const model::Protocol& p = *plan_.protocol;
    add(BlockKind::title, fmt::format("{}: checklist", p.title.empty() ? p.name : p.title));
    std::string line = fmt::format("Protocol {}", p.name);
    if (p.revision.known()) line += fmt::format(", revision {}", p.revision.get());
    if (p.adopted.known()) line += fmt::format(", adopted {}", words::to_text(p.adopted.get()));
    if (p.group.known()) line += fmt::format(", for {}", model::to_text(p.group.get()));
    if (!series_.empty()) line += fmt::format("; series {}", series_);
    add(BlockKind::paragraph, line + ".");
    if (!p.fingerprint_pictures.empty()) {
      // Twelve digits tell apart all the revisions a clinic will ever have.
      add(BlockKind::paragraph,
          fmt::format("Fingerprint of the pictures: {}.", p.fingerprint_pictures.substr(0, 12)));
    }
    add(BlockKind::paragraph,
        fmt::format("Kit: {}. Planned on {}.", kit_name(), words::to_text(plan_.on)));
    add(BlockKind::blank, "Patient record no.");
    add(BlockKind::blank, "Date");
  }

  /// Findings about this plan and everything that was not checked: never silent about either.
  void against() {
    add(BlockKind::heading, "What stands against it");
    const std::vector<const diag::Diagnostic*> findings = report_.findings_for(held_);
    if (findings.empty())
      add(BlockKind::paragraph, "Nothing was found. What was not checked stands below.");
    for (const Severity severity : {Severity::error, Severity::warning, Severity::advice}) {
      for (const diag::Diagnostic* d : findings) {
        if (d->severity != severity) continue;
        const std::string views = views_text(labels_here(*d));
        add(BlockKind::bullet,
            fmt::format("{}{}: {}{}{} [{}]{}", d->accepted.empty() ? "" : "accepted ",
                        diag::to_text(d->severity), views, views.empty() ? "" : ": ",
                        wording::text(d->message), d->definition->code,
                        d->accepted.empty() ? "" : ", because " + d->accepted));
      }
    }
    add(BlockKind::heading, "Not checked");
    for (std::string& line : not_checked_lines(report_, open_questions(), Naming::view))
      add(BlockKind::bullet, std::move(line));
  }

  /// The views of this protocol that a finding speaks of; it may speak of others, too.
  [[nodiscard]] std::vector<std::string> labels_here(const diag::Diagnostic& d) const {
    std::vector<diag::Subject> here;
    std::copy_if(d.about.begin(), d.about.end(), std::back_inserter(here),
                 [&](const diag::Subject& one) { return one.meets(held_.about); });
    return view_labels(report_, here);
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
    for (const SeriesView& e : entries_)
      take(static_cast<int>(e.view - plan_.views.data()));
    take(diag::Subject::none);
    return out;
  }

  void cautions() {
    add(BlockKind::heading, "Take care");
    for (const char* line :
         {"Consent comes before the first picture, and only for the purposes it names.",
          "Nothing is forced: lips and gums get pinched, and mirrors make people gag. Stop when "
          "the "
          "patient raises a hand.",
          "Used instruments are contaminated: follow the clinic's own infection-control rules.",
          "Local codes and the responsible clinician decide."}) {
      add(BlockKind::bullet, line);
    }
  }

  void before() {
    add(BlockKind::heading, "Before");
    const model::Protocol& p = *plan_.protocol;
    const std::string purposes = p.consent.known() ? purposes_text(p.consent.get()) : std::string();
    add(BlockKind::tick,
        purposes.empty() ? "Consent is given and written down, for stated purposes."
                         : fmt::format("Consent is given and written down, for: {}.", purposes));
    for (const TrayThing& one : tray_of(entries_)) {
      const std::string thing = wording::text(one.thing);
      add(BlockKind::tick,
          fmt::format("On the tray{}: {}.", one.second_choice ? ", for a second choice" : "",
                      one.count > 1 ? fmt::format("{}, {} of them", thing, one.count) : thing));
    }
    add(BlockKind::tick, "Mirrors lie apart from sharp instruments, front surfaces clean and dry.");
    add(BlockKind::tick, "Camera: date and time right, card with room, flash charged.");
    const auto iso = common(fact::iso);
    const auto shutter = common(fact::shutter);
    if (!iso.empty()) add(BlockKind::tick, fmt::format("ISO {} for all views.", iso));
    if (!shutter.empty()) add(BlockKind::tick, fmt::format("Shutter {} for all views.", shutter));
  }

  /// A fact's printed form where all views, second choices too, have the same; else "".
  [[nodiscard]] std::string common(const plan::FactRow& row) const {
    std::string value;
    for (const SeriesView& e : entries_) {
      const std::string text = said(e.view->facts, row);
      if (text.empty() || (!value.empty() && value != text)) return {};
      value = text;
    }
    return value;
  }

  void view_by_view() {
    add(BlockKind::heading, "View by view");
    std::size_t number = 0;
    for (const SeriesView& e : entries_) {
      const bool first_instead =
          e.instead_of != nullptr && (number == 0 || entries_[number - 1].instead_of == nullptr);
      if (first_instead) {
        add(BlockKind::heading, "Second choices");
        add(BlockKind::paragraph, "Taken only where the view that names them cannot be had.");
      }
      one_view(++number, e);
    }
  }

  void one_view(std::size_t number, const SeriesView& entry) {
    const plan::ViewPlan& v = *entry.view;
    const model::View& m = *v.view;
    std::string title = fmt::format("{}. {}", number, m.title);
    if (m.code.known()) title += fmt::format(" ({})", m.code.get()->code);
    if (entry.optional) title += ", optional";
    add(BlockKind::subheading, title);
    const std::string settings = settings_of(v);
    if (!settings.empty()) add(BlockKind::paragraph, settings);
    acts(v, false);
    for (const auto& caution : m.cautions) {
      if (caution.known()) add(BlockKind::bullet, "Take care: " + caution.get());
    }
    for (const auto& reason : m.stop_if) {
      if (reason.known()) add(BlockKind::bullet, "Stop if " + reason.get() + ".");
    }
    if (m.consent.known())
      add(BlockKind::bullet, "Needs consent for: " + purposes_text(m.consent.get()) + ".");
    add(BlockKind::tick, "Taken, and judged good before the instruments come out.");
    acts(v, true);
    if (entry.instead_of == nullptr) add(BlockKind::blank, "Not taken, because");
  }

  void acts(const plan::ViewPlan& v, bool after) {
    for (const plan::Act& act : v.acts) {
      if ((act.when == plan::When::after) == after)
        add(BlockKind::tick, fmt::format("{}: {}", who_text(act.who), act_text(act)));
    }
  }

  /// A spread goes both ways: it has no sign.
  static std::string unsigned_text(const plan::Facts& facts, const plan::FactDef<Stops>& def) {
    const auto value = facts.get(def);
    return value ? physics::to_text(*value) : std::string();
  }

  static std::string settings_of(const plan::ViewPlan& v) {
    std::string out;
    const auto say = [&](std::string_view label, const std::string& value) {
      if (value.empty()) return;
      if (!out.empty()) out += "; ";
      out += fmt::format("{}{}{}", label, label.empty() ? "" : " ", value);
    };
    const std::string mark = said(v.facts, fact::lens_mark);
    say("ratio", said(v.facts, fact::ratio) + (mark.empty() || mark == said(v.facts, fact::ratio)
                                                   ? ""
                                                   : " (on the lens " + mark + ")"));
    const std::string aperture = said(v.facts, fact::aperture);
    say("aperture", aperture.empty() ? "not settled" : aperture);
    say("ISO", said(v.facts, fact::iso));
    say("shutter", said(v.facts, fact::shutter));
    const std::string power = said(v.facts, fact::power);
    const std::string power_spread = unsigned_text(v.facts, fact::power_spread);
    const kit::Lamp* lamp = v.chosen.lamp;
    const bool automatic = lamp != nullptr && lamp->control.known() &&
                           lamp->control.get() == kit::LampControl::automatic;
    say("flash", automatic ? "automatic"
                           : power + (power.empty() || power_spread.empty()
                                          ? ""
                                          : fmt::format(" (give or take {})", power_spread)));
    say("lamp", said(v.facts, fact::lamp));
    say(v.view->kind == model::ViewKind::face ? "lens to face" : "lens to teeth",
        said(v.facts, fact::working_distance));
    if (!out.empty()) out = "Set: " + out + ".";
    const std::string offset = said(v.facts, fact::offset);
    if (!offset.empty() && said(v.facts, fact::exposure_reference) != v.view->name) {
      const std::string spread = unsigned_text(v.facts, fact::offset_spread);
      out += fmt::format(" Light against view {}: {}{}.", said(v.facts, fact::exposure_reference),
                         offset, spread.empty() ? "" : ", give or take " + spread);
    }
    const std::string focus = said(v.facts, fact::focus);
    if (!focus.empty()) out += fmt::format(" Focus {}.", focus);
    return out;
  }

  void after() {
    add(BlockKind::heading, "After");
    const kit::Kit* kit = plan_.kit;
    const bool prints =
        kit != nullptr && kit->pictures.known() && kit->pictures.get() == kit::Pictures::prints;
    const bool uncropped = plan_.protocol->crops.known() && plan_.protocol->crops.get() == model::Crops::none;
    const char* originals =
        prints ? "The prints are kept unaltered; nothing is written on their faces."
        : uncropped
            ? "The originals are kept unaltered; flips are made on copies and noted, nothing "
              "is cropped."
            : "The originals are kept unaltered; flips and crops are made on copies and "
              "noted.";
    for (const char* line :
         {"Every view is taken, or the reason is written down above.", originals,
          prints ? "What is written on the back of a print holds no patient's name."
                 : "File names hold no patient's name.",
          "Instruments go to reprocessing by the clinic's rules, mirrors bagged alone."}) {
      add(BlockKind::tick, line);
    }
    for (const SeriesView& e : entries_) {
      const std::string turn = said(e.view->facts, fact::turn);
      if (e.view->facts.get(fact::turn).value_or(physics::Turn::none) == physics::Turn::none)
        continue;
      add(BlockKind::tick, fmt::format("View {}{}: {} (in a copy).", e.view->view->name,
                                       e.instead_of != nullptr ? ", if taken" : "", turn));
    }
  }

  void sign_off() {
    add(BlockKind::heading, "Signed");
    add(BlockKind::blank, who_text(plan::Who::operator_));
    const bool assistant = std::any_of(entries_.begin(), entries_.end(), [](const SeriesView& e) {
      return std::any_of(e.view->acts.begin(), e.view->acts.end(),
                         [](const plan::Act& act) { return act.who == plan::Who::assistant; });
    });
    if (assistant) add(BlockKind::blank, who_text(plan::Who::assistant));
    add(BlockKind::blank, "Looked through by");
  }

  const report::Report& report_;
  const report::Held& held_;
  const plan::Plan& plan_;
  std::vector<SeriesView> entries_;
  std::string series_;
  Document out_;
};

} // namespace

Document checklist(const report::Report& report, const report::Held& held,
                   std::string_view series) {
  return Checklist(report, held, series).build();
}

} // namespace norma::emit
