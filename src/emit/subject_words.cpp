#include "emit/subject_words.hpp"

#include <algorithm>

#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "model/choices.hpp"

namespace norma::emit {

diag::Said severity_said(diag::Severity severity) {
  switch (severity) {
  case diag::Severity::error: return frame::error();
  case diag::Severity::warning: return frame::warning();
  case diag::Severity::advice: return frame::advice();
  }
  return {};
}

diag::Said surface_said(physics::Surface surface) {
  switch (surface) {
  case physics::Surface::facial: return frame::facial();
  case physics::Surface::biting: return frame::biting();
  case physics::Surface::lingual: return frame::lingual();
  }
  return {};
}

diag::Said group_said(const model::Group& group) {
  if (!group.children) return frame::adults();
  return group.teeth ? frame::children_with(model::term_of(*group.teeth)) : frame::children();
}

std::string view_label(const report::Report& report, const diag::Subject& about,
                       const wording::Language& in) {
  const diag::SubjectNames names = report.names(about);
  if (names.view.empty()) return {};
  if (names.group.empty()) return std::string(names.view);
  const model::Protocol& protocol = *report.files[static_cast<std::size_t>(about.file)]
                                         .protocols[static_cast<std::size_t>(about.group)];
  return in.text(frame::view_for(names.view, group_said(protocol.group.get())));
}

std::vector<std::string> view_labels(const report::Report& report,
                                     const std::vector<diag::Subject>& about,
                                     const wording::Language& in) {
  std::vector<std::string> out;
  for (const diag::Subject& one : about) {
    std::string label = view_label(report, one, in);
    if (!label.empty() && std::find(out.begin(), out.end(), label) == out.end())
      out.push_back(std::move(label));
  }
  return out;
}

std::string views_text(const std::vector<std::string>& views, const wording::Language& in) {
  constexpr std::size_t most = 12;
  constexpr std::size_t shown = 10;
  if (views.empty()) return {};
  const std::size_t count = views.size() > most ? shown : views.size();
  std::string names;
  for (std::size_t i = 0; i < count; ++i)
    names += (i > 0 ? ", " : "") + views[i];
  if (count < views.size())
    names = in.text(frame::and_more(names, static_cast<int>(views.size() - count)));
  return in.text(views.size() > 1 ? frame::views_of(names) : frame::one_view(names));
}

namespace {

std::string protocols_text(const report::Report& report, const std::vector<diag::Subject>& about,
                           const wording::Language& in) {
  constexpr std::size_t shown = 3;
  std::vector<std::string_view> names;
  for (const diag::Subject& one : about) {
    const std::string_view name = report.names(one).protocol;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string out;
  for (std::size_t i = 0; i < std::min(shown, names.size()); ++i)
    out += (i > 0 ? ", " : "") + std::string(names[i]);
  return names.size() > shown
             ? in.text(frame::and_more(out, static_cast<int>(names.size() - shown)))
             : out;
}

/// `protocols`: those to be named; "" for none.
std::string with_protocols(const report::Report& report, const std::vector<diag::Subject>& about,
                           std::string_view protocols, const wording::Language& in) {
  std::string out = views_text(view_labels(report, about, in), in);
  if (!protocols.empty()) out += (out.empty() ? "" : " ") + in.text(frame::in_protocol(protocols));
  if (about.empty()) return out;
  const std::string_view kit = report.names(about.front()).kit;
  if (!kit.empty()) out += (out.empty() ? "" : " ") + in.text(frame::with_kit(kit));
  return out;
}

} // namespace

std::string about_text(const report::Report& report, const std::vector<diag::Subject>& about,
                       const wording::Language& in) {
  return with_protocols(report, about, {}, in);
}

std::string about_text(const report::Report& report, const diag::Diagnostic& found,
                       const std::vector<diag::Subject>& about, const wording::Language& in) {
  const bool elsewhere = std::any_of(about.begin(), about.end(), [&](const diag::Subject& one) {
    return report.points_elsewhere(found, one);
  });
  return with_protocols(report, about,
                        elsewhere ? protocols_text(report, about, in) : std::string(), in);
}

diag::Said protocol_said(const plan::Plan& plan, const model::Series* series) {
  const model::Protocol& p = *plan.protocol;
  diag::List which{{p.name}};
  if (p.revision.known()) which.items.emplace_back(list::protocol_revision(p.revision.get()));
  if (p.adopted.known())
    which.items.emplace_back(list::protocol_adopted(wording::day_said(p.adopted.get())));
  if (p.group.known()) which.items.emplace_back(list::protocol_group(group_said(p.group.get())));
  diag::List line{{which}, true};
  if (series != nullptr) line.items.emplace_back(list::protocol_series(series->name));
  return list::protocol(line);
}

diag::Said kit_said(const plan::Plan& plan) {
  const kit::Kit* kit = plan.kit;
  const diag::Said name = kit == nullptr       ? list::no_kit()
                          : kit->title.known() ? diag::Said(kit->title.get())
                          : kit->name.known()  ? diag::Said(kit->name.get())
                                               : list::kit_without_name();
  return list::kit_and_day(name, wording::day_said(plan.on));
}

} // namespace norma::emit
