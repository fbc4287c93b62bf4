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

Diagnostic& Diagnostic::with_label(text::Span at, Said words) {
  labels.push_back({at, std::move(words)});
  return *this;
}
Diagnostic& Diagnostic::with_evidence(Evidence e) {
  evidence.push_back(std::move(e));
  return *this;
}
Diagnostic& Diagnostic::with_note(Said words) {
  notes.push_back(std::move(words));
  return *this;
}
Diagnostic& Diagnostic::with_help(Said words) {
  help.push_back(std::move(words));
  return *this;
}
Diagnostic& Diagnostic::with_fix(text::Span at, std::string replacement, bool safe) {
  fixes.push_back({at, std::move(replacement), safe});
  return *this;
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

void Findings::settle(std::size_t left_at_most) {
  // What they point to belongs to what they say: two that differ in it are two.
  const auto labels = [](const Diagnostic& d) {
    std::vector<std::pair<text::Span, const Said*>> out;
    for (const Label& label : d.labels)
      out.emplace_back(label.span, &label.text);
    return out;
  };
  const auto before = [&](const Diagnostic& a, const Diagnostic& b) {
    const int kit_a = a.kit();
    const int kit_b = b.kit();
    const auto key_a = std::tie(a.span, a.definition->code, kit_a, a.message, a.accepted, a.known,
                                a.notes, a.help);
    const auto key_b = std::tie(b.span, b.definition->code, kit_b, b.message, b.accepted, b.known,
                                b.notes, b.help);
    if (key_a < key_b || key_b < key_a) return key_a < key_b;
    const auto labels_a = labels(a);
    const auto labels_b = labels(b);
    return std::lexicographical_compare(labels_a.begin(), labels_a.end(), labels_b.begin(),
                                        labels_b.end(), [](const auto& x, const auto& y) {
                                          return x.first != y.first ? x.first < y.first
                                                                    : *x.second < *y.second;
                                        });
  };
  const auto same = [&](const Diagnostic& a, const Diagnostic& b) {
    return !before(a, b) && !before(b, a);
  };
  std::stable_sort(all_.begin(), all_.end(), before);
  std::vector<Diagnostic> settled;
  for (Diagnostic& d : all_) {
    if (settled.empty() || !same(settled.back(), d)) {
      settled.push_back(std::move(d));
      continue;
    }
    std::vector<Subject>& about = settled.back().about;
    for (const Subject& subject : d.about) {
      if (std::find(about.begin(), about.end(), subject) == about.end()) about.push_back(subject);
    }
  }
  all_ = std::move(settled);
  if (all_.size() <= left_at_most) return;
  std::vector<Severity> severities;
  for (const Diagnostic& d : all_)
    severities.push_back(d.severity);
  std::nth_element(severities.begin(),
                   severities.begin() + static_cast<std::ptrdiff_t>(left_at_most), severities.end(),
                   std::greater<>());
  // What is as grave as the last one that has room comes in the order of places.
  const Severity last = severities[left_at_most];
  std::size_t room = left_at_most - static_cast<std::size_t>(std::count_if(
                                        all_.begin(), all_.end(),
                                        [&](const Diagnostic& d) { return d.severity > last; }));
  std::vector<Diagnostic> left;
  for (Diagnostic& d : all_) {
    const bool in = d.severity > last || (d.severity == last && room > 0);
    if (!in) {
      if (d.counts()) drop(d);
      continue;
    }
    if (d.severity == last) --room;
    left.push_back(std::move(d));
  }
  all_ = std::move(left);
}

void Findings::are_about_file(int file) {
  for (Diagnostic& d : all_) {
    if (d.about.empty()) d.about.emplace_back();
    for (Subject& subject : d.about)
      subject.file = file;
  }
}

void Findings::move_kits(const std::function<int(int)>& which) {
  for (Diagnostic& d : all_) {
    for (Subject& subject : d.about)
      if (subject.kit != Subject::none) subject.kit = which(subject.kit);
  }
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
    if (!d.counts()) continue;
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
           return d.severity == s && d.counts();
         }));
}

namespace {

bool is_meant(const Diagnostic& d, std::string_view name, const Subject& about) {
  return d.definition->name == name &&
         std::any_of(d.about.begin(), d.about.end(),
                     [&](const Subject& one) { return about.is_said_of(one); });
}

} // namespace

bool Findings::has(std::string_view name, const Subject& about) const {
  return std::any_of(all_.begin(), all_.end(),
                     [&](const Diagnostic& d) { return is_meant(d, name, about); });
}

void Findings::accept(std::string_view name, const Subject& about, std::string_view because,
                      bool& met) {
  for (Diagnostic& d : all_) {
    if (!is_meant(d, name, about)) continue;
    d.accepted = because.empty() ? std::string("no reason is given") : std::string(because);
    met = true;
  }
}

void Findings::know(const std::function<bool(const Diagnostic&, const Subject*)>& is_known) {
  std::vector<Diagnostic> out;
  for (Diagnostic& d : all_) {
    if (d.about.empty()) {
      d.known = is_known(d, nullptr);
      out.push_back(std::move(d));
      continue;
    }
    std::vector<Subject> known;
    std::vector<Subject> others;
    for (const Subject& subject : d.about)
      (is_known(d, &subject) ? known : others).push_back(subject);
    if (!known.empty()) {
      out.push_back(d);
      out.back().about = std::move(known);
      out.back().known = true;
    }
    if (!others.empty()) {
      d.about = std::move(others);
      out.push_back(std::move(d));
    }
  }
  all_ = std::move(out);
}

void Findings::leave_out_known() {
  std::erase_if(all_, [](const Diagnostic& d) { return d.known; });
}

std::size_t Findings::accepted() const {
  return static_cast<std::size_t>(std::count_if(
      all_.begin(), all_.end(), [](const Diagnostic& d) { return !d.accepted.empty(); }));
}

} // namespace norma::diag
