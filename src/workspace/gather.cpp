#include "workspace/gather.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "diag/catalogue.hpp"
#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "diag/terms.hpp"

namespace norma::workspace {
namespace {

/// The numbers of a report's files, by those of their versions.
class Numbering {
 public:
  explicit Numbering(text::Sources& all) : all_(all) {}

  /// Kits each have a number, also where one is given twice.
  text::FileId add_kit(const KitRead& kit) {
    const text::FileId id = all_.share(kit.version->source);
    numbers_.emplace(kit.version->id, id);
    return id;
  }
  void add_protocols(const std::vector<std::string>& paths, const std::vector<Checked>& checked) {
    std::map<std::string_view, std::vector<const Version*>> by_name;
    for (const Checked& c : checked) {
      for (const File& file : c.resolved->files)
        by_name[file.version->source->name()].push_back(file.version.get());
    }
    for (const std::string& path : paths)
      add(by_name[path]);
    for (auto& [name, versions] : by_name)
      add(versions);
  }
  [[nodiscard]] text::FileId operator()(text::FileId version) const {
    const auto found = numbers_.find(version);
    return found == numbers_.end() ? version : found->second;
  }
  [[nodiscard]] text::Span operator()(text::Span span) const {
    span.file = (*this)(span.file);
    return span;
  }

 private:
  /// A file that changed while it was read twice stands here twice: each place has its own text.
  void add(std::vector<const Version*>& versions) {
    for (const Version* version : versions) {
      const auto [entry, fresh] = numbers_.try_emplace(version->id);
      if (fresh) entry->second = all_.share(version->source);
    }
    versions.clear();
  }

  text::Sources& all_;
  std::unordered_map<text::FileId, text::FileId> numbers_;
};

/// Moves all of `from` behind `to`; nothing is left there.
template <class T> void take_from(std::vector<T>& from, std::vector<T>& to) {
  if (to.empty()) {
    to.swap(from);
    return;
  }
  std::move(from.begin(), from.end(), std::back_inserter(to));
  from.clear();
  from.shrink_to_fit();
}

class Gatherer {
 public:
  Gatherer(const Kits& kits, words::Date on) : number_(report_.sources) {
    report_.on = on;
    for (const auto& kit : kits) {
      places_.emplace(kit.get(), static_cast<int>(report_.kits.size()));
      const text::FileId id = number_.add_kit(*kit);
      known_.emplace(kit->known_as, kit->id, id);
      report_.in_project.emplace(id, kit->in_project);
      report_.kits.push_back({kit->path, id, kit->kit->name.value_or(kit->path), kit->kit});
      append(*kit->findings);
    }
  }

  report::Report take(const std::vector<std::string>& paths, std::vector<Checked> checked,
                      std::size_t most) {
    number_.add_protocols(paths, checked);
    for (std::size_t i = 0; i < checked.size(); ++i)
      add(paths[i], static_cast<int>(i), checked[i]);
    for (const auto& [id, findings] : about_files_)
      append(*findings);
    tell_files_apart();
    settle_exceptions();
    ask_what_holds_for_all();
    report_.findings.settle(most);
    report_.index();
    return std::move(report_);
  }

 private:
  /// An exception in all the protocols that have it: its own and those that build on it.
  struct OfAll {
    Tried tried;
    Kits kits;
    std::vector<diag::Subject> files;
  };

  void append(diag::Findings found) {
    found.move_places([&](text::Span span) { return number_(span); });
    report_.findings.append(std::move(found));
  }

  /// A protocol's kits are some of all: each gets its place among those.
  void take_kits(Checked& one) {
    const auto place = [&](int kit) {
      return places_.at(one.kits[static_cast<std::size_t>(kit)].get());
    };
    const auto move = [&](diag::Subject& about) {
      if (about.kit != diag::Subject::none) about.kit = place(about.kit);
    };
    one.findings.move_kits(place);
    for (report::NotChecked& n : one.not_checked)
      move(n.about);
    for (report::Held& h : one.held)
      move(h.about);
  }

  void add(const std::string& path, int index, Checked& one) {
    report::File file{path, one.resolved->protocols, {}, {}};
    for (const File& f : one.resolved->files) {
      file.read.push_back(number_(f.version->id));
      file.numbers.push_back(f.version->id);
      if (!f.protocol.empty()) report_.protocols.emplace(file.read.back(), f.protocol);
      report_.in_project.emplace(file.read.back(), f.in_project);
      known_.emplace(f.in_project + "\n" + f.protocol, f.id, file.read.back());
      about_files_.emplace(f.id, f.findings); // each once, as it is for the first who builds on it
    }
    report_.files.push_back(std::move(file));
    take_kits(one);
    one.findings.are_about_file(index);
    append(std::move(one.findings));
    for (report::NotChecked& n : one.not_checked)
      n.about.file = index;
    for (report::Held& h : one.held)
      h.about.file = index;
    take_from(one.not_checked, report_.not_checked);
    take_from(one.held, report_.held);
    const text::FileId own = one.resolved->files.front().version->id;
    for (Tried& tried : one.exceptions) {
      if (tried.span.file != own) continue; // judged where it is written and can be mended
      tried.about.file = index;
      const auto [entry, fresh] =
          exceptions_.try_emplace(number_(tried.span), OfAll{tried, one.kits, {}});
      OfAll& all_files = entry->second;
      all_files.files.push_back(diag::Subject{index});
      if (fresh) continue;
      Tried& all = all_files.tried;
      all.about = std::min(all.about, tried.about);
      all.met = all.met || tried.met;
      all.kit_given = all.kit_given || tried.kit_given;
      // Whichever file was first: the same one is told.
      if (all.missing.empty() || (!tried.missing.empty() && tried.missing < all.missing))
        all.missing = tried.missing;
    }
  }

  /// Two files may be alike in project and name (of two projects, or kits of one name): where they
  /// lie orders them, and the later ones are counted.
  void tell_files_apart() {
    std::string_view before;
    int alike = 0;
    for (const auto& [known_as, id, file] : known_) {
      alike = known_as == before ? alike + 1 : 0;
      before = known_as;
      report_.known_as.emplace(file,
                               alike == 0 ? known_as : fmt::format("{}\n{}", known_as, alike));
    }
  }

  /// Where an exception says that its finding comes up.
  static diag::Said place_of(const Tried& e) {
    if (!e.view.empty()) return diag::term::view(e.view);
    return e.series.empty() ? diag::term::the_protocol() : diag::term::series(e.series);
  }

  /// An exception for another kit than those at hand is no leftover.
  static diag::Said kit_named(const Tried& tried, const Kits& kits) {
    diag::List wanted;
    for (const std::string& name : tried.kits)
      wanted.items.emplace_back(name);
    diag::List given;
    for (const auto& kit : kits)
      given.items.emplace_back(kit->kit->name.value_or(kit->path));
    return diag::missing::kit_named(std::move(wanted), std::move(given));
  }

  /// An exception that met nothing in the protocol that writes it, in no group and with no kit, is
  /// a finding of its own; without a kit nobody can tell.
  void settle_exceptions() {
    for (auto& [span, of_all] : exceptions_) {
      const Tried& tried = of_all.tried;
      if (tried.ran_out) {
        diag::Diagnostic d = diag::make(diag::catalogue::exception_over, span, tried.finding,
                                        place_of(tried), words::to_text(*tried.ran_out));
        d.about = std::move(of_all.files);
        report_.findings.add(std::move(d))
            .with_help(tried.met ? "mend what is found, or write another day and why"
                                 : "where it no longer comes up, take the line out");
        continue;
      }
      if (tried.met) continue;
      const Kits& kits = of_all.kits;
      const bool unread = std::any_of(kits.begin(), kits.end(),
                                      [](const auto& kit) { return !kit->kit->readable; });
      diag::Said missing = kits.empty()       ? diag::missing::kit()
                           : unread           ? diag::missing::readable_kit()
                           : !tried.kit_given ? kit_named(tried, kits)
                                              : tried.missing;
      if (!missing.empty()) {
        report_.not_checked.push_back(
            {tried.about, diag::question::accepted_comes_up(tried.finding), std::move(missing)});
        continue;
      }
      diag::Diagnostic d =
          diag::make(diag::catalogue::accept_meets_nothing, span, tried.finding, place_of(tried));
      d.about = std::move(of_all.files);
      report_.findings.add(std::move(d)).with_help("take the line out");
    }
  }

  void ask_what_holds_for_all() {
    const auto& held = report_.held;
    if (held.empty()) return;
    for (const report::Held& h : held) {
      const diag::Subject file{h.about.file};
      const auto& asked = report_.not_checked;
      const bool told = !asked.empty() && asked.back().about == file &&
                        asked.back().what.row == &diag::question::record_settled;
      if (h.protocol->adopted.absent() && !told)
        report_.not_checked.push_back(
            {file, diag::question::record_settled(), diag::missing::adopted()});
    }
    for (const plan::OpenQuestion& always : plan::never_checked())
      report_.not_checked.push_back({{}, always.what, always.missing});
  }

  std::unordered_map<const KitRead*, int> places_; // of kits
  report::Report report_;
  Numbering number_;
  std::set<std::tuple<std::string, std::string, text::FileId>> known_;       // as what, and by ids
  std::map<std::string, std::shared_ptr<const diag::Findings>> about_files_; // by ids
  std::map<text::Span, OfAll> exceptions_;
};

} // namespace

report::Report gather(const std::vector<std::string>& paths, std::vector<Checked> checked,
                      const Kits& kits, words::Date on, std::size_t most) {
  return Gatherer(kits, on).take(paths, std::move(checked), most);
}

} // namespace norma::workspace
