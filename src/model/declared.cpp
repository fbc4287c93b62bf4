#include "model/declared.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <map>

#include "diag/catalogue.hpp"
#include "model/fingerprint.hpp"
#include "model/merge.hpp"
#include "text/suggest.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;
using syntax::NodeKind;

constexpr std::string_view shortest_file =
    "norma 1, and below it protocol my_record \"My record\" { }";

std::string title_in(const Statement& heading) {
  const Part* part = heading.part("name");
  if (part == nullptr || part->values.size() < 2) return {};
  const auto* text = part->values[1].as<words::Quoted>();
  return text == nullptr ? std::string() : text->text();
}

std::string text_at(const Part& part, std::size_t index) {
  const auto* text = index < part.values.size() ? part.values[index].as<words::Quoted>() : nullptr;
  return text == nullptr ? std::string() : text->text();
}

class Reader {
 public:
  Reader(const text::Source& source, StatementReader& statements, diag::Findings& findings)
      : source_(source), statements_(statements), findings_(findings) {}

  Declared read(syntax::NodeView item, const Statement& heading) {
    out_.file = item.span().file;
    out_.name = name_in(heading, "name");
    out_.title = title_in(heading);
    out_.heading = heading.span;
    const auto block = block_of(item);
    if (block) {
      for (const syntax::NodeView child : block->children()) {
        if (child.kind() == NodeKind::item) read_item(child);
      }
    }
    out_.header = settle_block(std::move(out_.header), findings_);
    check_base();
    return std::move(out_);
  }

 private:
  void read_item(syntax::NodeView item) {
    auto read = statements_.read(item, words::in_protocol, "a protocol");
    if (!read) return;
    Statement& s = *read;
    const std::string_view word = s.word->name;
    if (word == "every mouth view") {
      read_every(item, s, words::in_every, out_.every_mouth);
    } else if (word == "every face view") {
      read_every(item, s, words::in_every_face, out_.every_face);
    } else if (word == "view") {
      read_view(item, std::move(s), ViewKind::mouth);
    } else if (word == "face view") {
      read_view(item, std::move(s), ViewKind::face);
    } else if (word == "series" || word == "change series") {
      if (s.broken) return;
      const std::string name(s.part("first")->values[0].as<words::Name>()->text);
      (word == "series" ? out_.series : out_.series_changes).push_back({name, std::move(s)});
    } else if (word == "change view") {
      // What kind of view it is, the base says: both kinds of words are read.
      Block block = read_block(item, words::in_view | words::in_face, "a view");
      if (!s.broken) out_.changes.push_back({name_in(s, "name"), std::move(s), std::move(block)});
    } else if (word == "drop view") {
      if (!s.broken) out_.drops.push_back({name_in(s, "name"), std::move(s)});
    } else if (word == "accept") {
      read_exception(s);
    } else if (word == "builds on") {
      read_base(s);
    } else {
      if (word == "for") check_group(s);
      out_.header.push_back(std::move(s));
    }
  }

  /// Mixed and milk teeth are children's.
  void check_group(Statement& s) {
    if (s.broken) return;
    const Group group = group_of(s);
    if (group.children || !group.teeth) return;
    const std::string_view teeth = to_text(*group.teeth);
    findings_.add(diag::make(catalogue::adults_with_milk_teeth, s.place("teeth"), teeth))
        .with_fix(s.place("group"), "children", false)
        .with_help(fmt::format("write `for children, {0}`, or leave `{0}` out", teeth));
    s.broken = true;
  }

  void read_every(syntax::NodeView item, const Statement& s, unsigned place, Block& into) {
    const auto known = every_headings_.find(place);
    if (known != every_headings_.end()) {
      findings_.add(diag::make(catalogue::said_twice, s.head, s.word->name))
          .with_label(known->second, "said here first")
          .with_help("put all of it into one block");
      return;
    }
    every_headings_[place] = s.head;
    into = read_block(item, place, fmt::format("`{}`", s.word->name));
  }

  Block read_block(syntax::NodeView item, unsigned place, std::string_view name) {
    Block out;
    out.whole = item.span();
    const auto block = block_of(item);
    if (!block) return out;
    for (const syntax::NodeView child : block->children()) {
      if (child.kind() != NodeKind::item) continue;
      auto s = read_in_block(child, place, name);
      if (!s) continue;
      if (s->word->name == "for") {
        check_group(*s);
        read_group(child, *s, place, name, out);
      } else {
        out.said.push_back(std::move(*s));
      }
    }
    out.said = settle_block(std::move(out.said), findings_);
    return out;
  }

  /// Views say much in the same words: what was read without a finding is kept by its text, and
  /// only its places are moved.
  std::optional<Statement> read_in_block(syntax::NodeView item, unsigned place,
                                         std::string_view name) {
    const text::Span span = item.span();
    const std::string_view text = source_.text(span);
    std::uint32_t& slot = alike_slots_[slot_of(text)];
    if (slot > 0) {
      const Alike& known = alike_[slot - 1];
      if (known.place == place && known.text == text)
        return known.statement.moved(span.begin - known.begin);
    }
    const std::size_t before = findings_.all().size() + findings_.dropped();
    auto s = statements_.read(item, place, name);
    const bool clean = s && !s->broken && !block_of(item) &&
                       findings_.all().size() + findings_.dropped() == before;
    if (!clean) return s;
    if (slot == 0) {
      alike_.emplace_back();
      slot = static_cast<std::uint32_t>(alike_.size());
    }
    alike_[slot - 1] = {text, place, span.begin, *s};
    return s;
  }

  /// A quick hash, eight bytes at a time; there are as many slots as it has values.
  static std::size_t slot_of(std::string_view text) {
    std::uint64_t hash = text.size();
    std::uint64_t eight = 0;
    for (; !text.empty(); text.remove_prefix(std::min(text.size(), sizeof eight))) {
      eight = 0;
      text.copy(reinterpret_cast<char*>(&eight), sizeof eight);
      hash = (hash ^ eight) * 0x9e3779b97f4a7c15u;
      hash ^= hash >> 32;
    }
    return static_cast<std::size_t>(hash & 0xffu);
  }

  void read_group(syntax::NodeView item, const Statement& s, unsigned place, std::string_view name,
                  Block& into) {
    Block inner = read_block(item, place, name);
    for (const GroupBlock& nested : inner.groups) {
      findings_.add(diag::make(catalogue::misplaced_word, nested.heading, "for",
                               "the block of another group"));
    }
    if (s.broken) return;
    const Group group = group_of(s);
    const auto twin = std::find_if(into.groups.begin(), into.groups.end(),
                                   [&](const GroupBlock& g) { return g.group == group; });
    if (twin != into.groups.end()) {
      findings_.add(diag::make(catalogue::said_twice, s.span, "for " + to_text(group)))
          .with_label(twin->heading, "said here first")
          .with_help("put all of it into one block");
      return;
    }
    into.groups.push_back({group, s.span, std::move(inner.said)});
  }

  /// The view is there, by its name, though its heading cannot be read.
  void note_unread(syntax::NodeView item, const words::Word& word) {
    auto behind = std::count(word.name.begin(), word.name.end(), ' ') + 1;
    for (const syntax::NodeView node : item.children()) {
      if (node.kind() != NodeKind::word) return;
      if (behind-- > 0) continue;
      out_.unread.emplace_back(source_.text(node.span()));
      return;
    }
  }

  void read_view(syntax::NodeView item, Statement heading, ViewKind kind) {
    Block block = read_block(item, kind == ViewKind::mouth ? words::in_view : words::in_face,
                             kind == ViewKind::mouth ? "a view" : "a view of the face");
    if (heading.broken) {
      note_unread(item, *heading.word);
      return;
    }
    const std::string name = name_in(heading, "name");
    const text::Span place = heading.place("name");
    if (names_.size() >= most_views) {
      if (!std::exchange(too_many_, true)) {
        findings_
            .add(diag::make(catalogue::protocol_too_large, place,
                            fmt::format("the protocol has more than {} views", most_views)))
            .with_note("this view and all below it are left out");
      }
      return;
    }
    const auto [twin, is_new] = names_.emplace(name, place);
    if (!is_new) {
      findings_.add(diag::make(catalogue::name_taken, place, name))
          .with_label(twin->second, "by this view")
          .with_help("give one of the two another name");
      return;
    }
    std::string title = title_in(heading);
    out_.views.push_back({name, std::move(title), kind, std::move(heading), std::move(block)});
  }

  void read_exception(const Statement& s) {
    if (s.broken) return;
    const Part& part = *s.part("what");
    const std::string name(part.values[0].as<words::Name>()->text);
    const diag::Definition* known = diag::catalogue::find(name);
    if (known != nullptr && known->name != name) {
      findings_.add(diag::make(catalogue::accept_unknown, s.place(part.values[0]), name))
          .with_fix(s.place(part.values[0]), std::string(known->name), true)
          .with_help(fmt::format("findings are accepted by their name: `{}`", known->name));
      return;
    }
    if (known == nullptr) {
      std::vector<std::string_view> names;
      for (const diag::Definition* d : diag::catalogue::all())
        names.push_back(d->name);
      auto& d = findings_.add(diag::make(catalogue::accept_unknown, s.place(part.values[0]), name));
      if (const auto near = text::nearest(name, names)) {
        d.with_fix(s.place(part.values[0]), std::string(*near), false)
            .with_help(fmt::format("did you mean `{}`?", *near));
      } else {
        d.with_help("the name stands behind the code of a finding, as in [P006 glare_from_metal]");
      }
      return;
    }
    Exception e;
    e.finding = name;
    e.span = s.span;
    e.finding_span = s.place(part.values[0]);
    bool in_series = false;
    bool kit_next = false;
    for (std::size_t i = 1; i < part.values.size(); ++i) {
      const words::Value& v = part.values[i];
      if (v.symbol() == "series") in_series = true;
      const auto* where = v.as<words::Name>();
      if (std::exchange(kit_next, v.symbol() == "with")) {
        e.kits.push_back(where != nullptr ? std::string(where->text) : text_at(part, i));
        continue;
      }
      if (const auto* day = v.as<words::Date>()) e.until = *day;
      if (v.as<words::Quoted>() != nullptr) e.because = text_at(part, i);
      if (where != nullptr) {
        (in_series ? e.series : e.view) = std::string(where->text);
        e.place_span = s.place(v);
      }
    }
    out_.exceptions.push_back(std::move(e));
  }

  void read_base(const Statement& s) {
    if (out_.base) {
      findings_.add(diag::make(catalogue::said_twice, s.head, "builds on"))
          .with_label(out_.base->span, "said here first")
          .with_help("a protocol builds on one other; that one may build on a third");
      return;
    }
    if (s.broken) {
      out_.sound = false;
      return;
    }
    const Part& part = *s.part("base");
    out_.base = Base{std::string(part.values[0].as<words::Name>()->text), text_at(part, 1), s.span,
                     s.place(part.values[1])};
    if (part.values.size() < 3) return;
    std::string as_of = text_at(part, 2);
    out_.base->as_of_span = s.place(part.values[2]);
    if (!is_fingerprint(as_of)) {
      findings_.add(diag::make(catalogue::no_fingerprint, out_.base->as_of_span, as_of))
          .with_help("`norma follow FILE` writes that of the base as it is now");
      return;
    }
    out_.base->as_of = std::move(as_of);
  }

  /// Edits need something to edit.
  void check_base() {
    if (out_.base || !out_.sound) return;
    const auto report = [&](const Statement& s) {
      findings_
          .add(diag::make(catalogue::edit_without_base, s.head, s.word->name,
                          "this protocol builds on none"))
          .with_help("name the base: builds on harbour_five from \"five.norma\"");
    };
    for (const ViewChange& c : out_.changes)
      report(c.heading);
    for (const ViewDrop& d : out_.drops)
      report(d.statement);
    for (const DeclaredSeries& c : out_.series_changes)
      report(c.statement);
    out_.changes.clear();
    out_.drops.clear();
    out_.series_changes.clear();
  }

  const text::Source& source_;
  StatementReader& statements_;
  diag::Findings& findings_;
  Declared out_;
  /// A statement that was read, for those in the same words; the last one of each slot.
  struct Alike {
    std::string_view text;
    unsigned place = 0;
    std::uint32_t begin = 0;
    Statement statement;
  };
  std::array<std::uint32_t, 256> alike_slots_{}; // index in alike_, from 1; 0 for none
  std::vector<Alike> alike_;
  std::map<unsigned, text::Span> every_headings_;
  std::unordered_map<std::string, text::Span> names_; // of views
  bool too_many_ = false;
};

} // namespace

std::string name_in(const Statement& s, std::string_view slot) {
  const words::Value* v = s.value(slot);
  const auto* name = v == nullptr ? nullptr : v->as<words::Name>();
  return name == nullptr ? std::string() : std::string(name->text);
}

Group group_of(const Statement& s) {
  return {s.symbol("group") == "children", choice_of<GroupTeeth>(s.symbol("teeth"))};
}

const DeclaredView* Declared::view(std::string_view wanted) const {
  const auto found = std::find_if(views.begin(), views.end(),
                                  [&](const DeclaredView& v) { return v.name == wanted; });
  return found == views.end() ? nullptr : &*found;
}

std::unordered_map<std::string_view, const DeclaredView*> Declared::by_name() const {
  std::unordered_map<std::string_view, const DeclaredView*> out;
  out.reserve(views.size());
  for (const DeclaredView& v : views)
    out.emplace(v.name, &v);
  return out;
}

std::size_t Declared::size() const {
  const auto of = [](const Block& block) {
    std::size_t n = block.said.size();
    for (const GroupBlock& g : block.groups)
      n += g.said.size();
    return n;
  };
  std::size_t n = header.size() + of(every_mouth) + of(every_face) + series.size();
  for (const DeclaredView& v : views)
    n += 1 + of(v.block);
  return n;
}

void Declared::share() {
  const auto share_all = [](std::vector<Statement>& all) {
    for (Statement& s : all)
      s.parts.share();
  };
  const auto share_block = [&](Block& block) {
    share_all(block.said);
    for (GroupBlock& g : block.groups)
      share_all(g.said);
  };
  share_all(header);
  share_block(every_mouth);
  share_block(every_face);
  for (DeclaredView& v : views) {
    v.heading.parts.share();
    share_block(v.block);
  }
  for (ViewChange& c : changes) {
    c.heading.parts.share();
    share_block(c.block);
  }
  for (ViewDrop& d : drops)
    d.statement.parts.share();
  for (std::vector<DeclaredSeries>* all : {&series, &series_changes}) {
    for (DeclaredSeries& s : *all)
      s.statement.parts.share();
  }
}

std::optional<Declared> declare(const syntax::Tree& tree, const text::Source& source, bool sound,
                                diag::Findings& findings) {
  std::optional<Declared> protocol;
  std::optional<text::Span> first_protocol;
  bool first = true;
  bool edition_said = false;
  StatementReader statements(source, findings);
  for (const syntax::NodeView item : tree.root().children()) {
    if (item.kind() != NodeKind::item) continue;
    const auto s = statements.read(item, words::in_file, "a file, outside of any block");
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
      if (number != nullptr && !(number->number == words::Rational{words::language_edition, 1})) {
        findings
            .add(diag::make(catalogue::edition_unknown, s->place(*edition),
                            source.text(s->place(*edition))))
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
    protocol = Reader(source, statements, findings).read(item, *s);
    protocol->sound = protocol->sound && sound;
  }
  if (!first_protocol && sound) {
    findings.add(diag::make(catalogue::protocol_missing, {tree.file(), 0, 0}))
        .with_help(fmt::format("a file starts like this: {}", shortest_file));
  }
  return protocol;
}

} // namespace norma::model
