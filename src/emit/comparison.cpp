#include "emit/comparison.hpp"

#include <algorithm>
#include <set>

#include "emit/act_words.hpp"
#include "emit/compared_said.hpp"
#include "emit/compared_words.hpp"
#include "emit/list_words.hpp"

namespace norma::emit {
namespace {

using review::Cause;
using review::Class;
using review::Comparison;
using review::Entry;
using review::ProtocolChange;
using review::SeriesChange;
using review::ViewChange;

/// One change, told once for all views that it is made in.
struct Told {
  diag::Said head;                   // what it is about, where that is no view
  const ViewChange* view = nullptr;  // the first
  std::vector<const Entry*> entries; // one for each of them
  std::vector<diag::Said> views;
  std::vector<diag::Said> other_side; // made from the first, for the other side, and changed alike
};

/// Is the one made from the other, before and after?
bool is_other_side(const ProtocolChange& p, const ViewChange& of, const ViewChange& made) {
  if (made.after < 0 ||
      p.new_protocol()->views[static_cast<std::size_t>(made.after)].crossing != "other side")
    return false;
  const auto from = [](const model::Protocol* protocol, int source, int view) {
    if (source < 0 || view < 0) return false;
    const auto& views = protocol->views;
    return views[static_cast<std::size_t>(view)].made_from ==
           views[static_cast<std::size_t>(source)].name;
  };
  return from(p.old_protocol(), of.before, made.before) &&
         from(p.new_protocol(), of.after, made.after);
}

/// The same change but for sides: the same words, and as much that follows.
bool alike(const Entry& a, const Entry& b) {
  const auto same_word = [](const review::Asked& x, const review::Asked& y) {
    return x.word == y.word && x.kind == y.kind && x.before.empty() == y.before.empty() &&
           x.after.empty() == y.after.empty();
  };
  const auto same_kit = [](const Entry::AtKit& x, const Entry::AtKit& y) {
    const review::Effects& f = x.effects;
    const review::Effects& g = y.effects;
    const auto same_fact = [](const review::Differs& c, const review::Differs& d) {
      return c.kind == d.kind && c.lost.size() == d.lost.size() &&
             c.gained.size() == d.gained.size();
    };
    return x.effect == y.effect && f.had_before == g.had_before && f.had_after == g.had_after &&
           std::equal(f.facts.begin(), f.facts.end(), g.facts.begin(), g.facts.end(), same_fact) &&
           f.found_new.size() == g.found_new.size() && f.found_gone.size() == g.found_gone.size() &&
           f.open_new.size() == g.open_new.size() && f.open_gone.size() == g.open_gone.size() &&
           f.acts_new.size() == g.acts_new.size() && f.acts_gone.size() == g.acts_gone.size();
  };
  return a.cause == b.cause && a.kind == b.kind && a.together == b.together &&
         a.holds_anyhow == b.holds_anyhow && a.cause != Cause::name && a.cause != Cause::came &&
         a.cause != Cause::went &&
         std::equal(a.asked.begin(), a.asked.end(), b.asked.begin(), b.asked.end(), same_word) &&
         std::equal(a.kits.begin(), a.kits.end(), b.kits.begin(), b.kits.end(), same_kit);
}

diag::List purposes_list(const std::vector<model::Purpose>& all) {
  diag::List out;
  for (const model::Purpose purpose : all)
    out.items.emplace_back(model::term_of(purpose));
  return out;
}

/// Pairs of a kit and a view.
using Where = std::vector<std::pair<std::size_t, std::size_t>>;

struct Note {
  int line; // those of one number share a line
  diag::Said what;
  Where where;
};

class ComparisonPage {
  static constexpr int own_line = -1;

 public:
  ComparisonPage(const Comparison& all, const wording::Language& in) : all_(all), in_(in) {}

  Document build() {
    could_not_read();
    const bool any = std::any_of(all_.protocols.begin(), all_.protocols.end(),
                                 [](const ProtocolChange& p) { return !p.not_read; });
    if (any || all_.protocols.empty()) add(BlockKind::paragraph, verdict_said(all_));
    loud();
    verdicts();
    for (std::size_t i = 0; i < all_.protocols.size(); ++i)
      protocol(i);
    if (all_.unchanged == 1) add(BlockKind::paragraph, compared::one_unchanged());
    if (all_.unchanged > 1)
      add(BlockKind::paragraph, compared::unchanged(static_cast<int>(all_.unchanged)));
    add(BlockKind::paragraph, list::care_who_decides());
    return std::move(out_);
  }

 private:
  void add(BlockKind kind, const diag::Said& what) { out_.push_back({kind, in_.text(what)}); }

  /// Nothing is known of them, and that comes first.
  void could_not_read() {
    std::vector<diag::Said> files;
    for (const ProtocolChange& p : all_.protocols) {
      if (!p.not_read) continue;
      const review::FilePair& file = all_.files[p.file];
      files.push_back({file.path_after.empty() ? file.path_before : file.path_after});
    }
    if (!files.empty()) add(BlockKind::paragraph, compared::could_not_read(names_list(files)));
  }

  void loud() {
    for (std::size_t k = 0; k < all_.kits.size(); ++k) {
      for (const bool lost : {true, false}) {
        std::vector<diag::Said> views;
        for (const ProtocolChange& p : all_.protocols) {
          for (const ViewChange& v : p.views) {
            const bool any = std::any_of(v.entries.begin(), v.entries.end(), [&](const Entry& e) {
              const review::Effects& f = e.kits[k].effects;
              return lost ? f.had_no_longer() : f.had_again();
            });
            if (any) views.push_back(in_protocol(all_, p, view_said(p, v)));
          }
        }
        if (views.empty()) continue;
        const diag::List list = names_list(views);
        const std::string& kit = all_.kits[k].name;
        if (kit.empty()) {
          add(BlockKind::paragraph, lost ? compared::lost_had(list) : compared::again_had(list));
        } else {
          add(BlockKind::paragraph,
              lost ? compared::lost_had_with(list, kit) : compared::again_had_with(list, kit));
        }
      }
    }
    if (all_.without_kit() > all_.gravest())
      add(BlockKind::paragraph, compared::asked_more(class_said(all_.without_kit())));
    for (const ProtocolChange& p : all_.protocols) {
      if (p.not_read) continue;
      const diag::Said name = protocol_label(p);
      if (!p.consent_added.empty())
        add(BlockKind::paragraph, compared::consent_wider(name, purposes_list(p.consent_added)));
      if (p.revision_forgotten() && !all_.files[p.file].own_file_same) {
        add(BlockKind::paragraph, p.revision_after > 0
                                      ? compared::revision_same(name, p.revision_after)
                                      : compared::revision_none(name));
      }
      if (!p.consent_gone.empty())
        add(BlockKind::paragraph, compared::consent_narrower(name, purposes_list(p.consent_gone)));
      if (p.unread) add(BlockKind::paragraph, compared::not_whole(name));
    }
  }

  void verdicts() {
    if (all_.protocols.empty()) return;
    add(BlockKind::heading, compared::verdicts());
    add(BlockKind::bullet, compared::without_kit(class_said(all_.without_kit())));
    for (std::size_t k = 0; k < all_.kits.size(); ++k) {
      const review::KitPair& kit = all_.kits[k];
      if (kit.name.empty()) continue;
      const diag::Said effect = class_said(all_.at_kit(k));
      add(BlockKind::bullet, kit.same ? compared::with_kit(kit.name, effect)
                                      : compared::with_other_kit(kit.name, effect));
    }
  }

  /// Its own file is the same, and all that changes stands at what it builds on.
  [[nodiscard]] bool told_at_base(const ProtocolChange& p) const {
    const bool views = std::none_of(p.views.begin(), p.views.end(),
                                    [](const ViewChange& v) { return v.told_here(); });
    return all_.files[p.file].own_file_same && !p.builds_on.empty() && views && p.heading.empty() &&
           p.series.empty() && p.accepted.empty() && !p.unread;
  }

  void protocol(std::size_t place) {
    const ProtocolChange& p = all_.protocols[place];
    const review::FilePair& file = all_.files[p.file];
    if (p.not_read || told_at_base(p)) return; // told at the top, or at the base
    const std::string name(protocol_name(p));
    const std::string& path = file.path_after.empty() ? file.path_before : file.path_after;
    add(BlockKind::title, p.group.empty() ? compared::protocol(name, path)
                                          : compared::protocol_for(name, path, p.group));
    if (p.old_protocol() == nullptr || p.new_protocol() == nullptr) {
      add(BlockKind::paragraph,
          p.old_protocol() == nullptr ? compared::protocol_came() : compared::protocol_went());
      return;
    }
    if (p.renamed)
      add(BlockKind::paragraph, compared::protocol_renamed(p.old_protocol()->name, name));
    if (!file.path_before.empty() && file.path_before != file.path_after)
      add(BlockKind::paragraph, compared::moved(file.path_before, file.path_after));
    if (p.revision_before != p.revision_after)
      add(BlockKind::paragraph, compared::revision(p.revision_before, p.revision_after));
    if (file.own_file_same && !p.builds_on.empty()) add(BlockKind::paragraph, compared::by_base());
    followers(place);
    const std::size_t before = out_.size();
    for (const Class c : review::all_classes)
      of_class(p, c);
    taken_over(p);
    if (out_.size() == before) add(BlockKind::paragraph, compared::nothing());
  }

  /// Who builds on it: those that are broken first.
  void followers(std::size_t place) {
    std::vector<diag::Said> broken;
    std::vector<diag::Said> reached;
    std::vector<diag::Said> others;
    for (const ProtocolChange& p : all_.protocols) {
      if (std::find(p.builds_on.begin(), p.builds_on.end(), static_cast<int>(place)) ==
          p.builds_on.end())
        continue;
      std::vector<diag::Said> lost;
      for (const ViewChange& v : p.views) {
        const bool had = std::any_of(v.entries.begin(), v.entries.end(), [](const Entry& e) {
          return std::any_of(e.kits.begin(), e.kits.end(),
                             [](const Entry::AtKit& k) { return k.effects.had_no_longer(); });
        });
        if (had || v.after < 0) lost.push_back(view_said(p, v));
      }
      const diag::Said name = protocol_label(p);
      if (p.unread || p.not_read) {
        broken.push_back(compared::follower_unread(name));
      } else if (!lost.empty()) {
        broken.push_back(compared::follower_broken(name, names_list(lost)));
      } else {
        (p.gravest() > Class::none ? reached : others).emplace_back(name);
      }
    }
    if (broken.empty() && reached.empty() && others.empty()) return;
    add(BlockKind::heading, compared::followers());
    for (const diag::Said& said : broken)
      add(BlockKind::bullet, said);
    if (!reached.empty()) add(BlockKind::bullet, compared::follower_reached(names_list(reached)));
    if (!others.empty()) add(BlockKind::bullet, compared::follower_not_reached(names_list(others)));
  }

  void taken_over(const ProtocolChange& p) {
    for (const int base : p.builds_on) {
      std::vector<diag::Said> views;
      for (const ViewChange& v : p.views) {
        const bool any = std::any_of(v.entries.begin(), v.entries.end(),
                                     [&](const Entry& e) { return e.as_in == base; });
        if (any) views.push_back(view_said(p, v));
      }
      if (views.empty()) continue;
      add(BlockKind::paragraph,
          compared::as_in_base(
              std::string(protocol_name(all_.protocols[static_cast<std::size_t>(base)])),
              names_list(views)));
    }
  }

  void of_class(const ProtocolChange& p, Class c) {
    Document lines;
    std::swap(lines, out_);
    std::vector<Told> told;
    for (const Entry& e : p.heading) {
      if (e.gravest() == c)
        told.push_back(
            {e.cause == Cause::name ? compared::the_protocol() : compared::of_all_views(),
             nullptr,
             {&e},
             {},
             {}});
    }
    for (const ViewChange& v : p.views) {
      for (const Entry& e : v.entries) {
        if (e.as_in >= 0 || e.gravest() != c) continue;
        // What makes the same difference in several views is told once.
        const auto same = std::find_if(told.begin(), told.end(), [&](const Told& t) {
          const Entry& other = *t.entries.front();
          return t.view != nullptr && e.cause != Cause::name && other.cause == e.cause &&
                 other.kind == e.kind && other.together == e.together && other.asked == e.asked &&
                 other.holds_anyhow == e.holds_anyhow;
        });
        if (same != told.end()) {
          same->entries.push_back(&e);
          same->views.push_back(view_said(p, v));
          continue;
        }
        const auto other_side = std::find_if(told.begin(), told.end(), [&](const Told& t) {
          return t.view != nullptr && is_other_side(p, *t.view, v) && alike(*t.entries.front(), e);
        });
        if (other_side != told.end()) {
          other_side->other_side.push_back(view_said(p, v));
        } else {
          told.push_back({{}, &v, {&e}, {view_said(p, v)}, {}});
        }
      }
    }
    for (const Told& t : told)
      entry(t, p);
    for (const SeriesChange& s : p.series)
      series(p, s, c);
    if (c == review::class_of(review::Kind::accepted)) {
      for (const review::Accepted& a : p.accepted) {
        const model::Exception& e = *a.exception;
        const std::string where = e.view.empty() ? e.series : e.view;
        diag::Said what(where.empty() ? e.finding : e.finding + " (" + where + ")");
        diag::List kits;
        for (const std::string& kit : e.kits)
          kits.items.emplace_back(kit);
        if (!kits.items.empty()) what = compared::accepted_with(what, std::move(kits));
        if (e.until) what = compared::accepted_until(what, wording::day_said(*e.until));
        add(BlockKind::bullet, a.now ? compared::accepted_now(what, e.because)
                                     : compared::accepted_no_more(what, e.because));
      }
    }
    std::swap(lines, out_);
    if (lines.empty()) return;
    add(BlockKind::heading, compared::class_and_meaning(class_said(c), meaning_said(c)));
    out_.insert(out_.end(), lines.begin(), lines.end());
  }

  void series(const ProtocolChange& p, const SeriesChange& s, Class c) {
    const auto name_of = [&](const model::Protocol& protocol, int place) {
      return protocol.series[static_cast<std::size_t>(place)].name;
    };
    const std::string name =
        s.after >= 0 ? name_of(*p.new_protocol(), s.after) : name_of(*p.old_protocol(), s.before);
    for (const Entry& e : s.entries) {
      if (e.gravest() != c) continue;
      const diag::Said head = compared::series(name);
      if (e.cause == Cause::name) {
        add(BlockKind::bullet,
            compared::entry(head, compared::renamed(name_of(*p.old_protocol(), s.before), name)));
      } else if (e.kind == review::Kind::order) {
        diag::List old_order;
        diag::List new_order;
        for (const std::string& view : s.order_before)
          old_order.items.emplace_back(view);
        for (const std::string& view : s.order_after)
          new_order.items.emplace_back(view);
        add(BlockKind::bullet, compared::entry(head, compared::order(old_order, new_order)));
        notes({head, nullptr, {&e}, {}, {}});
      } else if (e.kind == review::Kind::record) {
        add(BlockKind::bullet, compared::entry(head, compared::rows()));
      } else {
        entry({head, nullptr, {&e}, {}, {}}, p);
      }
    }
  }

  void entry(const Told& told, const ProtocolChange& p) {
    const Entry& e = *told.entries.front();
    const diag::Said head =
        told.views.empty() ? told.head : compared::views(names_list(told.views));
    add(BlockKind::bullet, compared::entry(head, cause(e, p, told.view)));
    if (e.holds_anyhow) add(BlockKind::under, compared::holds_anyhow());
    notes(told);
    if (!told.other_side.empty())
      add(BlockKind::under, compared::other_side(names_list(told.other_side)));
  }

  static diag::Said cause(const Entry& e, const ProtocolChange& p, const ViewChange* view) {
    const diag::Said kind = called(e.kind);
    switch (e.cause) {
    case Cause::kit: return compared::by_kit(kind);
    case Cause::others:
      return view == nullptr ? compared::by_its_views(kind) : compared::by_others(kind);
    case Cause::came:
    case Cause::went: return kind;
    case Cause::name: {
      if (view == nullptr) {
        if (e.kind == review::Kind::renamed)
          return compared::renamed(p.old_protocol()->name, p.new_protocol()->name);
        return compared::retitled(p.old_protocol()->title, p.new_protocol()->title);
      }
      const auto& old_view = p.old_protocol()->views[static_cast<std::size_t>(view->before)];
      const auto& new_view = p.new_protocol()->views[static_cast<std::size_t>(view->after)];
      return e.kind == review::Kind::renamed ? compared::renamed(old_view.name, new_view.name)
                                             : compared::retitled(old_view.title, new_view.title);
    }
    case Cause::heading:
      if (e.asked.empty()) return compared::by_heading(kind);
      break;
    case Cause::asked: break;
    }
    return e.together ? compared::together(kind, asked_list(e.asked)) : asked_said(e.kind, e.asked);
  }

  /// What follows, once for all views and kits that it follows with.
  void notes(const Told& told) {
    std::vector<Note> all;
    for (std::size_t v = 0; v < told.entries.size(); ++v) {
      const Entry& e = *told.entries[v];
      for (std::size_t k = 0; k < e.kits.size(); ++k) {
        for (Note& note : notes_of(e, e.kits[k])) {
          const auto there = std::find_if(all.begin(), all.end(), [&](const Note& n) {
            return n.line == note.line && n.what == note.what;
          });
          Note& to = there != all.end() ? *there : all.emplace_back(std::move(note));
          to.where.emplace_back(k, v);
        }
      }
    }
    // Facts of the same class that hold in the same places share a line.
    for (std::size_t i = 0; i < all.size(); ++i) {
      Note& note = all[i];
      if (note.where.empty()) continue;
      diag::Said what = note.what;
      if (note.line != own_line) {
        diag::List list;
        list.semicolons = true;
        for (std::size_t j = i; j < all.size(); ++j) {
          if (all[j].line != note.line || (j != i && all[j].where != note.where)) continue;
          list.items.emplace_back(all[j].what);
          if (j != i) all[j].where.clear();
        }
        what = compared::facts(list);
      }
      add(BlockKind::under, placed(what, note.where, told));
    }
  }

  /// With the views and kits that it holds with, where these are not all.
  [[nodiscard]] diag::Said placed(const diag::Said& what, const Where& where,
                                  const Told& told) const {
    std::set<std::size_t> kits;
    std::set<std::size_t> views;
    for (const auto& [k, v] : where) {
      kits.insert(k);
      views.insert(v);
    }
    diag::List kit_names;
    for (const std::size_t k : kits)
      kit_names.items.emplace_back(all_.kits[k].name);
    std::vector<diag::Said> labels;
    for (const std::size_t v : views) {
      if (v < told.views.size()) labels.push_back(told.views[v]);
    }
    const bool every_kit = all_.kits.size() == 1 || kits.size() == all_.kits.size();
    const bool every_view = labels.size() == told.views.size();
    if (every_kit && every_view) return all_.kits.size() == 1 ? what : compared::at_every_kit(what);
    if (every_kit) return compared::in_views(names_list(labels), what);
    if (every_view) return compared::at_kit(kit_names, what);
    return compared::in_views_at_kit(names_list(labels), kit_names, what);
  }

  [[nodiscard]] std::vector<Note> notes_of(const Entry& e, const Entry::AtKit& kit) const {
    std::vector<Note> out;
    const auto own = [&](diag::Said said) { out.push_back({own_line, std::move(said), {}}); };
    const review::Effects& f = kit.effects;
    for (const diag::Diagnostic* d : f.found_new) {
      if (d->severity == diag::Severity::error) own(compared::had_no_longer(d->message));
    }
    for (const diag::Diagnostic* d : f.found_gone) {
      if (d->severity == diag::Severity::error) own(compared::had_now(d->message));
    }
    for (diag::Said& said : bridge(e, kit))
      own(std::move(said));
    for (const Class c : review::all_classes) {
      for (const review::Differs& d : f.facts) {
        if (review::class_of(d.kind) == c) out.push_back({static_cast<int>(c), fact_said(d), {}});
      }
    }
    if (f.facts.empty() && !kit.same.empty()) {
      diag::List same;
      same.semicolons = true;
      for (const review::Same& s : kit.same)
        same.items.emplace_back(compared::same_fact(diag::Said{*s.row, {}}, s.value));
      own(kit.no_effect ? compared::no_effect(same) : compared::stays(same));
    }
    for (const diag::Diagnostic* d : f.found_new) {
      if (d->severity == diag::Severity::warning) own(compared::found(d->message));
    }
    for (const auto& [was, now] : f.found_otherwise) {
      const bool error = now->severity == diag::Severity::error;
      if (was->severity == now->severity)
        own(error ? compared::error_otherwise(was->message, now->message)
                  : compared::found_otherwise(was->message, now->message));
      else
        own(error ? compared::found_graver(was->message, now->message)
                  : compared::found_milder(was->message, now->message));
    }
    for (const diag::Diagnostic* d : f.found_gone) {
      // Where something is checked no longer, it may be gone for that.
      if (d->severity == diag::Severity::warning)
        own(f.open_new.empty() ? compared::found_no_longer(d->message)
                               : compared::found_or_unchecked(d->message));
    }
    for (const report::NotChecked* n : f.open_new)
      own(compared::open_new(n->what, n->missing));
    for (const report::NotChecked* n : f.open_gone)
      own(compared::open_gone(n->what, n->missing));
    const bool instruments = std::any_of(f.facts.begin(), f.facts.end(), [](const auto& d) {
      return d.kind == review::Kind::instruments;
    });
    std::vector<diag::Said> acts = acts_said(f.acts_gone, f.acts_new, instruments);
    for (std::size_t i = 0; i < std::min(acts.size(), most_told); ++i)
      own(std::move(acts[i]));
    if (acts.size() > most_told) own(compared::more(static_cast<int>(acts.size() - most_told)));
    return out;
  }

  [[nodiscard]] diag::List details(const std::vector<diag::Said>& all,
                                   const std::vector<diag::Said>& others) const {
    diag::List out;
    for (const diag::Said& one : all) {
      if (std::find(others.begin(), others.end(), one) != others.end()) continue;
      // Some stand behind a sign of their own.
      const std::string text = in_.text(one);
      out.items.emplace_back(text.substr(std::min(text.find_first_not_of(" ,;:"), text.size())));
    }
    return out;
  }

  /// What is done by another, or in another way, is told as one thing.
  [[nodiscard]] std::vector<diag::Said> acts_said(std::vector<const plan::Act*> gone,
                                                  const std::vector<const plan::Act*>& come,
                                                  bool instruments) const {
    std::vector<diag::Said> out;
    for (const plan::Act* now : come) {
      // The same act with another instrument: the facts tell which.
      const auto alike = std::find_if(gone.begin(), gone.end(), [&](const plan::Act* was) {
        return instruments && was->verb == now->verb && was->who == now->who &&
               was->how == now->how;
      });
      if (alike != gone.end()) {
        gone.erase(alike);
        continue;
      }
      const auto same = std::find_if(gone.begin(), gone.end(), [&](const plan::Act* was) {
        return was->verb == now->verb && was->objects == now->objects;
      });
      const std::string who = who_text(now->who, in_);
      if (same == gone.end()) {
        out.push_back(compared::act_new(who, act_text(*now, in_)));
        continue;
      }
      const plan::Act* was = *same;
      gone.erase(same);
      if (was->who != now->who) {
        out.push_back(compared::act_other(who_text(was->who, in_), who, act_text(*now, in_)));
        continue;
      }
      plan::Act plain = *now;
      plain.how.clear();
      const diag::List less = details(was->how, now->how);
      const diag::List more = details(now->how, was->how);
      const std::string act = act_text(plain, in_);
      out.push_back(less.items.empty()   ? compared::act_with(who, act, more)
                    : more.items.empty() ? compared::act_without(who, act, less)
                                         : compared::act_changed(who, act, less, more));
    }
    for (const plan::Act* was : gone)
      out.push_back(compared::act_gone(who_text(was->who, in_), act_text(*was, in_)));
    return out;
  }

  const Comparison& all_;
  const wording::Language& in_;
  Document out_;
};

} // namespace

Document affected(const Comparison& all, const wording::Language& in) {
  std::vector<const ProtocolChange*> order;
  for (const ProtocolChange& p : all.protocols)
    order.push_back(&p);
  std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) {
    const bool own_a = !all.files[a->file].own_file_same;
    const bool own_b = !all.files[b->file].own_file_same;
    return own_a != own_b ? own_a : a->gravest() > b->gravest();
  });
  Document out;
  for (const ProtocolChange* p : order) {
    const review::FilePair& file = all.files[p->file];
    const std::string& path = file.path_after.empty() ? file.path_before : file.path_after;
    const diag::Said effect = class_said(p->gravest());
    out.push_back(
        {BlockKind::bullet, in.text(file.own_file_same ? compared::affected_by_base(path, effect)
                                                       : compared::affected_itself(path, effect))});
  }
  if (out.empty()) out.push_back({BlockKind::paragraph, in.text(compared::verdict_none())});
  return out;
}

Document comparison(const Comparison& all, const wording::Language& in) {
  return ComparisonPage(all, in).build();
}

} // namespace norma::emit
