#include "emit/laid_out.hpp"

#include <fmt/core.h>

#include "emit/csv.hpp"
#include "emit/frame_words.hpp"
#include "emit/kit_due.hpp"
#include "emit/list_words.hpp"
#include "emit/listed_views.hpp"
#include "emit/refused.hpp"
#include "emit/subject_words.hpp"
#include "report/unread.hpp"

namespace norma::emit {
namespace {

/// How many of it for all patients: what goes into a mouth, one's own for each.
int for_all(const TrayThing& thing, int patients) {
  return thing.goes_in ? thing.count * patients : thing.count;
}

/// How it lies in its bag; empty where it needs none, or where nobody says.
diag::Said bag_of(const TrayThing& thing) {
  if (!thing.goes_in) return {};
  if (thing.mirror == nullptr) return frame::tray_bag();
  const bool with_others =
      thing.mirror->packed.known() && thing.mirror->packed.get() == kit::Packed::with_instruments;
  return with_others ? frame::tray_bag_with_others() : frame::tray_bag_alone();
}

/// For how many patients the pieces of the kit do; nothing where nobody says how many there are.
std::optional<int> does_for(const TrayThing& thing) {
  if (thing.retractor == nullptr || !thing.retractor->pieces.known()) return std::nullopt;
  return thing.retractor->pieces.get() / thing.count;
}

} // namespace

Document laid_out(const report::Report& report, const report::Held& held, std::string_view series,
                  int patients, const wording::Language& in) {
  if (auto none = refused(report, held, in)) return *none;
  const plan::Plan& plan = held.plan;
  const std::string& title = title_of(*plan.protocol);
  const model::Series* taken = listed_series(plan, series);
  Document out;
  const auto add = [&](BlockKind kind, const diag::Said& what) {
    out.push_back({kind, in.text(what)});
  };
  add(BlockKind::title, frame::tray_title(title));
  add(BlockKind::paragraph, protocol_said(plan, taken));
  add(BlockKind::paragraph, kit_said(plan));
  const ListedViews views(report, held, taken);
  const std::vector<TrayThing> things = tray_of(plan, views.taken(), in);
  if (things.empty()) add(BlockKind::paragraph, frame::tray_nothing());
  for (const bool goes_in : {true, false}) {
    bool first = true;
    for (const TrayThing& thing : things) {
      if (thing.goes_in != goes_in) continue;
      if (first)
        add(BlockKind::heading, !goes_in        ? frame::tray_beside()
                                : patients == 1 ? frame::tray_for_one()
                                                : frame::tray_for_several(patients));
      first = false;
      const int count = for_all(thing, patients);
      diag::Said line = count > 1 ? list::tray_several(thing.thing, count) : thing.thing;
      if (const diag::Said bag = bag_of(thing); !bag.empty()) line = frame::tray_in(line, bag);
      if (thing.second_choice) line = list::tray_second_choice(line);
      add(BlockKind::tick, line);
    }
  }
  bool short_of = false;
  for (const TrayThing& thing : things) {
    const auto patients_served = does_for(thing);
    if (!patients_served || *patients_served >= patients) continue;
    if (!short_of) add(BlockKind::heading, frame::tray_short());
    short_of = true;
    add(BlockKind::bullet,
        frame::tray_does_for(thing.thing, thing.retractor->pieces.get(), *patients_served));
  }
  diag::List uncounted;
  for (const TrayThing& thing : things) {
    if (thing.goes_in && !does_for(thing)) uncounted.items.emplace_back(thing.thing);
  }
  if (!uncounted.items.empty()) {
    add(BlockKind::heading, list::not_checked());
    add(BlockKind::bullet, frame::tray_uncounted(uncounted));
  }
  if (plan.kit != nullptr) {
    const std::vector<std::string> due = due_lines(*plan.kit, plan.on, in);
    if (!due.empty()) add(BlockKind::heading, frame::tray_due());
    for (const std::string& line : due)
      out.push_back({BlockKind::bullet, line});
  }
  add(BlockKind::heading, list::before());
  add(BlockKind::tick, list::mirrors_apart());
  add(BlockKind::bullet, list::care_infection());
  out.push_back({BlockKind::fields,
                 "",
                 {{in.text(frame::tray_by()), false, true}, {in.text(list::date()), false, true}}});
  return out;
}

std::string laid_out_csv(const report::Report& report, const report::Held& held,
                         std::string_view series, int patients, const wording::Language& in) {
  std::string out;
  if (!report::unread_of(report, held).whole()) return out;
  const plan::Plan& plan = held.plan;
  const ListedViews views(report, held, listed_series(plan, series));
  const std::string kit = plan.kit != nullptr ? plan.kit->name.value_or({}) : std::string();
  const auto yes = [&](bool is) { return in.text(is ? frame::yes() : frame::no()); };
  for (const TrayThing& thing : tray_of(plan, views.taken(), in)) {
    out += csv_row({plan.protocol->name, kit, in.text(thing.thing), fmt::format("{}", thing.count),
                    fmt::format("{}", for_all(thing, patients)), yes(thing.goes_in),
                    in.text(bag_of(thing)), yes(thing.second_choice)});
  }
  return out;
}

} // namespace norma::emit
