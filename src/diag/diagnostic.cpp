#include "diag/diagnostic.hpp"

#include <algorithm>
#include <tuple>

namespace norma::diag {

std::string_view to_text(Severity s) {
  switch (s) {
  case Severity::advice: return "advice";
  case Severity::warning: return "warning";
  case Severity::error: return "error";
  }
  return "";
}

std::string_view to_text(Relation r) {
  switch (r) {
  case Relation::at_least: return "at least";
  case Relation::at_most: return "at most";
  case Relation::equal: return "equal to";
  }
  return "";
}

Diagnostic& Diagnostic::with_label(text::Span at, std::string words) {
  labels.push_back({at, std::move(words)});
  return *this;
}
Diagnostic& Diagnostic::with_evidence(Evidence e) {
  evidence.push_back(std::move(e));
  return *this;
}
Diagnostic& Diagnostic::with_note(std::string words) {
  notes.push_back(std::move(words));
  return *this;
}
Diagnostic& Diagnostic::with_help(std::string words) {
  help.push_back(std::move(words));
  return *this;
}
Diagnostic& Diagnostic::with_fix(text::Span at, std::string replacement, bool safe) {
  fixes.push_back({at, std::move(replacement), safe});
  return *this;
}
Diagnostic& Diagnostic::about(std::string view_name, std::string kit_name) {
  if (!view_name.empty()) views.push_back(std::move(view_name));
  kit = std::move(kit_name);
  return *this;
}

std::string views_text(const std::vector<std::string>& views) {
  constexpr std::size_t most = 12;
  constexpr std::size_t shown = 10;
  if (views.empty()) return {};
  const std::size_t count = views.size() > most ? shown : views.size();
  std::string out = views.size() > 1 ? "views " : "view ";
  for (std::size_t i = 0; i < count; ++i)
    out += (i > 0 ? ", " : "") + views[i];
  if (count < views.size()) out += fmt::format(" and {} more", views.size() - count);
  return out;
}

Diagnostic& Findings::add(Diagnostic d) {
  if (all_.size() >= kept) {
    drop(d);
    spill_ = std::move(d);
    return spill_;
  }
  all_.push_back(std::move(d));
  return all_.back();
}

void Findings::append(Findings other) {
  for (Diagnostic& d : other.all_)
    add(std::move(d));
  for (std::size_t i = 0; i < dropped_.size(); ++i)
    dropped_[i] += other.dropped_[i];
}

void Findings::settle() {
  const auto key = [](const Diagnostic& d) {
    return std::tie(d.span, d.definition->code, d.kit, d.message, d.accepted, d.notes, d.help);
  };
  std::stable_sort(all_.begin(), all_.end(),
                   [&](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
  std::vector<Diagnostic> settled;
  for (Diagnostic& d : all_) {
    if (settled.empty() || key(settled.back()) != key(d)) {
      settled.push_back(std::move(d));
      continue;
    }
    std::vector<std::string>& views = settled.back().views;
    for (std::string& view : d.views) {
      if (std::find(views.begin(), views.end(), view) == views.end())
        views.push_back(std::move(view));
    }
  }
  all_ = std::move(settled);
  if (all_.size() <= most) return;
  std::vector<Severity> severities;
  for (const Diagnostic& d : all_)
    severities.push_back(d.severity);
  std::nth_element(severities.begin(), severities.begin() + most, severities.end(),
                   std::greater<>());
  // What is as grave as the last one that has room comes in the order of places.
  const Severity last = severities[most];
  std::size_t room =
      most - static_cast<std::size_t>(std::count_if(
                 all_.begin(), all_.end(), [&](const Diagnostic& d) { return d.severity > last; }));
  std::vector<Diagnostic> left;
  for (Diagnostic& d : all_) {
    const bool in = d.severity > last || (d.severity == last && room > 0);
    if (!in) {
      if (d.accepted.empty()) drop(d);
      continue;
    }
    if (d.severity == last) --room;
    left.push_back(std::move(d));
  }
  all_ = std::move(left);
}

void Findings::move_places(const std::function<text::Span(text::Span)>& where) {
  for (Diagnostic& d : all_) {
    d.span = where(d.span);
    for (Label& l : d.labels)
      l.span = where(l.span);
    for (Fix& f : d.fixes)
      f.span = where(f.span);
  }
}

std::optional<Severity> Findings::worst() const {
  std::optional<Severity> worst;
  for (const Diagnostic& d : all_) {
    if (!d.accepted.empty()) continue;
    if (!worst || d.severity > *worst) worst = d.severity;
  }
  for (const Severity s : {Severity::advice, Severity::warning, Severity::error}) {
    if (dropped_[static_cast<std::size_t>(s)] > 0 && (!worst || s > *worst)) worst = s;
  }
  return worst;
}

std::size_t Findings::count(Severity s) const {
  return dropped_[static_cast<std::size_t>(s)] +
         static_cast<std::size_t>(std::count_if(all_.begin(), all_.end(), [s](const Diagnostic& d) {
           return d.severity == s && d.accepted.empty();
         }));
}

void Findings::accept(std::string_view name, std::string_view view, std::string_view because,
                      bool& met) {
  for (Diagnostic& d : all_) {
    const bool about = std::find(d.views.begin(), d.views.end(), view) != d.views.end();
    if (d.definition->name != name || !about) continue;
    d.accepted = because.empty() ? std::string("no reason is given") : std::string(because);
    met = true;
  }
}

std::size_t Findings::accepted() const {
  return static_cast<std::size_t>(std::count_if(
      all_.begin(), all_.end(), [](const Diagnostic& d) { return !d.accepted.empty(); }));
}

} // namespace norma::diag
