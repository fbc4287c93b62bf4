#include "report/report.hpp"

#include <algorithm>

namespace norma::report {
namespace {

template <class T> const T* at(const std::vector<T>& list, int index) {
  return index < 0 || static_cast<std::size_t>(index) >= list.size()
             ? nullptr
             : &list[static_cast<std::size_t>(index)];
}

/// Groups and kits are few: they are looked at one by one.
diag::Subject key_of(const diag::Subject& about) {
  return {about.file, diag::Subject::none, diag::Subject::none, about.view, about.series};
}

} // namespace

diag::SubjectNames Report::names(const diag::Subject& about) const {
  diag::SubjectNames out;
  if (const Kit* kit = at(kits, about.kit)) out.kit = kit->name;
  const File* file = at(files, about.file);
  if (file == nullptr) return out;
  out.file = file->path;
  if (!file->read.empty()) out.protocol = protocol_in(file->read.front());
  // Views and series stand in the same order for all groups.
  const bool of_all = about.group == diag::Subject::none;
  const auto* protocol = at(file->protocols, of_all ? 0 : about.group);
  if (protocol == nullptr) return out;
  if (!of_all) out.group = (*protocol)->group_label;
  if (const model::View* view = at((*protocol)->views, about.view)) out.view = view->name;
  if (const model::Series* series = at((*protocol)->series, about.series))
    out.series = series->name;
  return out;
}

std::string_view Report::protocol_in(text::FileId file) const {
  const auto found = protocols.find(file);
  return found == protocols.end() ? std::string_view() : std::string_view(found->second);
}

diag::SubjectNames Report::names(const diag::Diagnostic& found, const diag::Subject* about) const {
  if (about != nullptr) return names(*about);
  diag::SubjectNames out;
  if (!found.span.known()) return out;
  for (const Kit& kit : kits) {
    if (kit.file != found.span.file) continue;
    out.kit = kit.name;
    return out;
  }
  out.file = sources[found.span.file].name();
  out.protocol = protocol_in(found.span.file);
  return out;
}

bool Report::points_elsewhere(const diag::Diagnostic& found, const diag::Subject& about) const {
  const File* file = at(files, about.file);
  return file != nullptr && file->read.size() > 1 && found.span.known() &&
         found.span.file != file->read.front();
}

int Report::first_of(int file) const {
  const File* of = at(files, file);
  if (of == nullptr || of->read.empty()) return file;
  const auto first = std::find_if(files.begin(), files.end(), [&](const File& other) {
    return !other.read.empty() && other.read.front() == of->read.front();
  });
  return static_cast<int>(first - files.begin());
}

std::vector<const diag::Diagnostic*> Report::findings_for(const Held& held_one) const {
  const File* file = at(files, held_one.about.file);
  const Kit* kit = at(kits, held_one.about.kit);
  const auto about_files = [&](const diag::Diagnostic& d) {
    const text::FileId where = d.span.file;
    if (kit != nullptr && where == kit->file) return true;
    return file != nullptr &&
           std::find(file->read.begin(), file->read.end(), where) != file->read.end();
  };
  std::vector<const diag::Diagnostic*> out;
  for (const diag::Diagnostic& d : findings.all()) {
    const bool in = d.about.empty() ? about_files(d)
                                    : std::any_of(d.about.begin(), d.about.end(),
                                                  [&](const diag::Subject& subject) {
                                                    return subject.meets(held_one.about);
                                                  });
    if (in) out.push_back(&d);
  }
  return out;
}

std::vector<const NotChecked*> Report::not_checked_for(const Held& held_one) const {
  std::vector<const NotChecked*> out;
  for (const NotChecked& n : not_checked) {
    if (n.about.meets(held_one.about)) out.push_back(&n);
  }
  return out;
}

std::vector<const NotChecked*> Report::not_checked_of(const diag::Subject& about) const {
  std::vector<const NotChecked*> out;
  const auto found = not_checked_by_subject_.find(key_of(about));
  if (found == not_checked_by_subject_.end()) return out;
  for (const std::size_t place : found->second) {
    if (not_checked[place].about.is_said_of(about)) out.push_back(&not_checked[place]);
  }
  return out;
}

void Report::index() {
  not_checked_by_subject_.clear();
  for (std::size_t i = 0; i < not_checked.size(); ++i)
    not_checked_by_subject_[key_of(not_checked[i].about)].push_back(i);
  by_subject_.clear();
  for (std::size_t i = 0; i < findings.all().size(); ++i) {
    for (const diag::Subject& about : findings.all()[i].about) {
      auto& places = by_subject_[key_of(about)];
      if (places.empty() || places.back() != i) places.push_back(i);
    }
  }
}

std::vector<const diag::Diagnostic*> Report::said_of(const diag::Subject& about) const {
  std::vector<std::size_t> places;
  // What names no file holds for all of them.
  for (const int file : {about.file, diag::Subject::none}) {
    const auto found = by_subject_.find(key_of({file, 0, 0, about.view, about.series}));
    if (found != by_subject_.end())
      places.insert(places.end(), found->second.begin(), found->second.end());
    if (about.file == diag::Subject::none) break;
  }
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  std::vector<const diag::Diagnostic*> out;
  for (const std::size_t place : places) {
    const diag::Diagnostic& d = findings.all()[place];
    if (std::any_of(d.about.begin(), d.about.end(),
                    [&](const diag::Subject& subject) { return subject.is_said_of(about); }))
      out.push_back(&d);
  }
  return out;
}

Report findings_alone(diag::Findings findings, text::Sources sources) {
  Report out;
  out.findings = std::move(findings);
  out.sources = std::move(sources);
  out.index();
  return out;
}

} // namespace norma::report
