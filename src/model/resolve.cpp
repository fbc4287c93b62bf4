#include "model/resolve.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "diag/catalogue.hpp"
#include "model/derive.hpp"
#include "model/lower.hpp"
#include "model/merge.hpp"
#include "model/statement.hpp"
#include "text/suggest.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;
using syntax::NodeKind;

constexpr std::string_view shortest_file =
    "norma 1, and below it protocol my_record \"My record\" { }";

/// A view as written: its heading, and what its block says.
struct WrittenView {
  std::string name;
  std::string title;
  Statement heading;
  std::vector<Statement> said;
};

/// `both` and the like for a heading's name: a name as written.
std::string name_in(const Statement& s, std::string_view slot) {
  const words::Value* v = s.value(slot);
  const auto* name = v == nullptr ? nullptr : v->as<words::Name>();
  return name == nullptr ? std::string() : name->text;
}

std::string title_in(const Statement& heading) {
  const Part* part = heading.part("name");
  if (part == nullptr || part->values.size() < 2) return {};
  const auto* text = part->values[1].as<words::Quoted>();
  return text == nullptr ? std::string() : text->text;
}

class Resolver {
 public:
  Resolver(const text::Sources& sources, diag::Findings& findings)
      : sources_(sources), findings_(findings) {}

  Protocol resolve(syntax::NodeView item, const Statement& heading) {
    protocol_.file = item.span().file;
    protocol_.name = name_in(heading, "name");
    protocol_.title = title_in(heading);
    protocol_.heading = heading.span;
    if (const auto block = block_of(item)) read_protocol_block(*block);
    for (const WrittenView& view : written_) {
      View typed;
      typed.name = view.name;
      typed.title = view.title.empty() ? view.name : view.title;
      typed.heading = view.heading.span;
      const std::vector<Statement>* statements = statements_of(view.name);
      if (statements != nullptr) {
        lower_view(*statements, typed);
        check_texts(view, *statements);
      }
      protocol_.views.push_back(std::move(typed));
    }
    read_series();
    check_exposure();
    check_milk_teeth();
    return std::move(protocol_);
  }

 private:
  std::vector<Statement> read_block(syntax::NodeView item, unsigned place, std::string_view name) {
    std::vector<Statement> said;
    const auto block = block_of(item);
    if (!block) return said;
    for (const syntax::NodeView child : block->children()) {
      if (child.kind() != NodeKind::item) continue;
      if (auto s = read_statement(child, place, name, sources_, findings_)) {
        said.push_back(std::move(*s));
      }
    }
    return settle_block(std::move(said), findings_);
  }

  void read_protocol_block(syntax::NodeView block) {
    std::vector<Statement> own;
    for (const syntax::NodeView child : block.children()) {
      if (child.kind() != NodeKind::item) continue;
      auto s = read_statement(child, words::in_protocol, "a protocol", sources_, findings_);
      if (!s) continue;
      if (s->word->name == "every mouth view") {
        if (every_heading_) {
          findings_.add(diag::make(catalogue::said_twice, s->head, s->word->name))
              .with_label(*every_heading_, "said here first")
              .with_help("put all of it into one block");
          continue;
        }
        every_heading_ = s->head;
        every_ = read_block(child, words::in_every, "`every mouth view`");
      } else if (s->word->name == "view") {
        add_view(child, std::move(*s));
      } else if (s->word->name == "series") {
        series_.push_back(std::move(*s));
      } else {
        own.push_back(std::move(*s));
      }
    }
    own = settle_block(std::move(own), findings_);
    lower_protocol(own, protocol_);
  }

  void add_view(syntax::NodeView item, Statement heading) {
    std::vector<Statement> said = read_block(item, words::in_view, "a view");
    const std::string name = name_in(heading, "name");
    if (name.empty()) return; // the heading is broken, and was reported
    const auto twin = std::find_if(written_.begin(), written_.end(),
                                   [&](const WrittenView& v) { return v.name == name; });
    if (twin != written_.end()) {
      findings_.add(diag::make(catalogue::name_taken, heading.part("name")->values[0].span, name))
          .with_label(twin->heading.part("name")->values[0].span, "by this view")
          .with_help("give one of the two another name");
      return;
    }
    std::string title = title_in(heading);
    written_.push_back({name, std::move(title), std::move(heading), std::move(said)});
  }

  const WrittenView* written(std::string_view name) const {
    const auto found = std::find_if(written_.begin(), written_.end(),
                                    [&](const WrittenView& v) { return v.name == name; });
    return found == written_.end() ? nullptr : &*found;
  }

  void report_unknown_view(text::Span span, std::string_view name) {
    std::vector<std::string_view> names;
    for (const WrittenView& v : written_)
      names.push_back(v.name);
    auto& d = findings_.add(diag::make(catalogue::unknown_view, span, name));
    if (const auto near = text::nearest(name, names)) {
      d.with_fix(span, std::string(*near), false)
          .with_help(fmt::format("did you mean `{}`?", *near));
    }
  }

  /// The merged and derived statements of a view; null where it leads nowhere (reported).
  const std::vector<Statement>* statements_of(const std::string& name) {
    const auto done = resolved_.find(name);
    if (done != resolved_.end()) return done->second ? &*done->second : nullptr;
    const WrittenView& view = *written(name);
    if (std::find(path_.begin(), path_.end(), name) != path_.end()) {
      std::string circle;
      for (const std::string& step : path_)
        circle += step + ", ";
      findings_.add(
          diag::make(catalogue::goes_in_circles, view.heading.part("same")->span, circle + name));
      for (const std::string& step : path_)
        resolved_[step] = std::nullopt;
      return nullptr;
    }
    path_.push_back(name);
    std::optional<std::vector<Statement>> result = resolve_view(view);
    path_.pop_back();
    const auto entry = resolved_.try_emplace(name, std::move(result)).first;
    return entry->second ? &*entry->second : nullptr;
  }

  std::optional<std::vector<Statement>> resolve_view(const WrittenView& view) {
    const Part* same = view.heading.part("same");
    if (same == nullptr) return merged(every_, view.said);
    const std::string source = name_in(view.heading, "same");
    if (written(source) == nullptr) {
      report_unknown_view(same->values[0].span, source);
      return std::nullopt;
    }
    const std::vector<Statement>* base = statements_of(source);
    if (base == nullptr) return std::nullopt;
    const std::string_view crossing = view.heading.symbol("crossing");
    if (crossing.empty()) return merged(*base, view.said);
    if (crossing == "other side") return merged(derived(*base, Crossing::other_side), view.said);
    std::vector<Statement> crossed = derived(*base, Crossing::other_jaw);
    check_jaw(view, crossing, source, crossed);
    return merged(crossed, view.said);
  }

  /// `for the lower jaw` made from a view of the lower jaw would show the upper one.
  void check_jaw(const WrittenView& view, std::string_view crossing, std::string_view source,
                 const std::vector<Statement>& crossed) {
    if (crossing == "other jaw") return;
    const bool upper = crossing == "upper jaw";
    for (const Statement& s : crossed) {
      if (s.word->name != "must show") continue;
      for (const Part& part : s.parts) {
        for (const words::Value& v : part.values) {
          const auto* run = v.as<words::ToothRun>();
          if (run == nullptr || run->first.is_upper() == upper) continue;
          findings_.add(diag::make(catalogue::wrong_jaw, view.heading.part("crossing")->span,
                                   upper ? "upper" : "lower", source));
          return;
        }
      }
    }
  }

  /// Texts are never rewritten: one that names a side is wrong on the other.
  void check_texts(const WrittenView& view, const std::vector<Statement>& statements) {
    const std::string_view crossing = view.heading.symbol("crossing");
    if (crossing.empty()) return;
    const bool side = crossing == "other side";
    for (const Statement& s : statements) {
      if (!s.derived) continue;
      for (const Part& part : s.parts) {
        for (const words::Value& v : part.values) {
          const auto* quoted = v.as<words::Quoted>();
          if (quoted == nullptr) continue;
          for (const std::string_view word : {"left", "right", "upper", "lower"}) {
            const bool of_side = word == "left" || word == "right";
            if (of_side != side || !holds_word(quoted->text, word)) continue;
            findings_.add(diag::make(catalogue::side_in_text, v.span, word))
                .about(view.name)
                .with_label(view.heading.span, "into this view")
                .with_help(fmt::format("write `{}` with its own text in view `{}`", s.word->name,
                                       view.name));
            break;
          }
        }
      }
    }
  }

  static bool holds_word(std::string_view text, std::string_view word) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() &&
             ((text[i] >= 'a' && text[i] <= 'z') || (text[i] >= 'A' && text[i] <= 'Z'));
    };
    for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
      if (text::edit_distance(text.substr(at, word.size()), word, 0) != 0) continue;
      if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
    }
    return false;
  }

  void read_series() {
    for (const Statement& s : series_) {
      if (s.broken) continue;
      Series series;
      series.span = s.span;
      for (const Part& part : s.parts) {
        const bool first = part.clause->slot == "first";
        const std::size_t at = first ? 1 : 0;
        if (first) series.name = part.values[0].as<words::Name>()->text;
        const words::Value& view = part.values[at];
        const std::string& name = view.as<words::Name>()->text;
        if (written(name) == nullptr) {
          report_unknown_view(view.span, name);
          continue;
        }
        series.entries.push_back({name, part.values.size() > at + 1, view.span});
      }
      const auto twin = std::find_if(protocol_.series.begin(), protocol_.series.end(),
                                     [&](const Series& o) { return o.name == series.name; });
      if (twin != protocol_.series.end()) {
        findings_.add(diag::make(catalogue::name_taken, s.span, series.name))
            .with_label(twin->span, "by this series");
        continue;
      }
      protocol_.series.push_back(std::move(series));
    }
  }

  void check_exposure() {
    for (const View& view : protocol_.views) {
      if (!view.exposure.known() || view.exposure->as_view.empty()) continue;
      if (written(view.exposure->as_view) == nullptr) {
        // The same statement comes to many views from `every mouth view`: one finding is enough.
        report_unknown_view(view.exposure.span(), view.exposure->as_view);
        continue;
      }
      const View* at = &view;
      for (std::size_t steps = 0; steps <= protocol_.views.size(); ++steps) {
        const View* next = at->exposure.known() ? protocol_.view(at->exposure->as_view) : nullptr;
        if (next == nullptr || next == at) break; // the reference, or a view without one
        if (next == &view) {
          if (!in_circle_.insert(at->name).second) break;
          in_circle_.insert(view.name);
          findings_.add(diag::make(catalogue::goes_in_circles, view.exposure.span(),
                                   fmt::format("exposure of {} as view {}", view.name, at->name)));
          break;
        }
        at = next;
      }
    }
  }

  void check_milk_teeth() {
    if (!protocol_.group.known() || protocol_.group->children) return;
    for (const View& view : protocol_.views) {
      for (const Sourced<Faces>* faces : {&view.must_show, &view.must_be_sharp}) {
        if (!faces->known()) continue;
        for (const NamedFace& f : faces->get()) {
          if (!f.tooth.is_primary()) continue;
          findings_
              .add(diag::make(catalogue::milk_tooth, faces->span(), std::to_string(f.tooth.iso())))
              .with_note("milk teeth do persist in adults: keep it where that is meant");
          break;
        }
      }
    }
  }

  const text::Sources& sources_;
  diag::Findings& findings_;
  Protocol protocol_;
  std::optional<text::Span> every_heading_;
  std::vector<Statement> every_;
  std::vector<WrittenView> written_;
  std::vector<Statement> series_;
  std::map<std::string, std::optional<std::vector<Statement>>> resolved_;
  std::vector<std::string> path_;
  std::set<std::string> in_circle_; // views whose circle has been told
};

} // namespace

std::optional<Protocol> resolve(const syntax::Tree& tree, const text::Sources& sources, bool sound,
                                diag::Findings& findings) {
  std::optional<Protocol> protocol;
  std::optional<text::Span> first_protocol;
  bool first = true;
  bool edition_said = false;
  for (const syntax::NodeView item : tree.root().children()) {
    if (item.kind() != NodeKind::item) continue;
    const auto s =
        read_statement(item, words::in_file, "a file, outside of any block", sources, findings);
    const bool starts = std::exchange(first, false);
    if (!s) {
      sound = false;
      if (starts) edition_said = true; // one finding for this line is enough
      continue;
    }
    if (s->word->name == "norma") {
      if (edition_said && !starts) {
        findings.add(diag::make(catalogue::said_twice, s->head, "norma"));
      }
      edition_said = true;
      const words::Value* edition = s->value("edition");
      const auto* number = edition == nullptr ? nullptr : edition->as<words::Measure>();
      if (number != nullptr && !(number->number == words::Rational{1, 1})) {
        findings
            .add(diag::make(catalogue::edition_unknown, edition->span, sources.text(edition->span)))
            .with_help("use a newer norma for this file");
        return std::nullopt;
      }
      continue;
    }
    if (!edition_said) {
      findings.add(diag::make(catalogue::edition_missing, s->head))
          .with_fix({s->head.file, s->head.begin, s->head.begin}, "norma 1\n\n", true)
          .with_help("write `norma 1` as the first line");
      edition_said = true;
    }
    if (first_protocol) {
      findings.add(diag::make(catalogue::name_taken, s->head, "protocol"))
          .with_label(*first_protocol, "by this protocol")
          .with_help("a file holds one protocol");
      continue;
    }
    first_protocol = s->head;
    protocol = Resolver(sources, findings).resolve(item, *s);
  }
  if (!first_protocol && sound) {
    findings.add(diag::make(catalogue::protocol_missing, {tree.file(), 0, 0}))
        .with_help(fmt::format("a file starts like this: {}", shortest_file));
  }
  return protocol;
}

} // namespace norma::model
