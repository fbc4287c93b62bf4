#include "emit/told.hpp"

#include <algorithm>
#include <iterator>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "emit/subject_words.hpp"
#include "text/digest.hpp"

namespace norma::emit {
namespace {

/// A path is told by its last part: what stands before it depends on where one stands.
std::string_view without_folders(std::string_view text) {
  for (const std::string_view end : {".norma", ".yaml", ".yml"}) {
    if (text.ends_with(end)) return text.substr(text.rfind('/') + 1);
  }
  return text;
}

/// What identifies a finding, as one text; each part has its length in front, so that no two lists
/// of parts are the same text.
class Key {
 public:
  void part(std::string_view of) {
    text_ += std::to_string(of.size()) + ":";
    text_ += of;
  }
  void said(const diag::Said& of) {
    part(of.row == nullptr ? without_folders(of.own) : of.row->id);
    for (const diag::Value& argument : of.arguments)
      value(argument);
  }
  /// Words and teeth; numbers are what came out.
  void value(const diag::Value& of) {
    if (const auto* text = std::get_if<std::string>(&of.is)) {
      part(without_folders(*text));
    } else if (const auto* sentence = std::get_if<diag::Said>(&of.is)) {
      said(*sentence);
    } else if (const auto* teeth = std::get_if<diag::Teeth>(&of.is)) {
      for (const physics::Tooth tooth : *teeth)
        part(std::to_string(tooth.iso()));
    } else if (const auto* list = std::get_if<diag::List>(&of.is)) {
      for (const diag::Value& item : list->items)
        value(item);
    }
    text_ += ";";
  }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

class Teller {
 public:
  explicit Teller(const report::Report& report) : report_(report) {}

  AllTold tell(bool known_listed, std::size_t most) {
    for (const diag::Diagnostic& d : report_.findings.all()) {
      if (d.about.empty()) add(d, nullptr);
      std::set<diag::Subject> seen; // a file may be asked for twice
      for (const diag::Subject& about : d.about) {
        diag::Subject at = about;
        at.file = report_.first_of(about.file);
        if (seen.insert(at).second) add(d, &about);
      }
    }
    number();
    count(known_listed, most);
    return std::move(out_);
  }

 private:
  void add(const diag::Diagnostic& d, const diag::Subject* about) {
    out_.list.push_back({&d, about, report_.names(d, about), {}});
  }

  [[nodiscard]] std::string_view known_as(text::FileId file) const {
    const auto found = report_.known_as.find(file);
    return found == report_.known_as.end() ? without_folders(report_.sources[file].name())
                                           : std::string_view(found->second);
  }

  [[nodiscard]] std::string key_of(const Told& told) const {
    Key key;
    const diag::Subject about = told.about == nullptr ? diag::Subject{} : *told.about;
    const auto& files = report_.files;
    if (about.file != diag::Subject::none)
      key.part(known_as(files[static_cast<std::size_t>(about.file)].read.front()));
    else if (told.about == nullptr && told.finding->span.known())
      key.part(known_as(told.finding->span.file)); // a protocol's, or a kit's
    else
      key.part({});
    for (const std::string_view name : {told.names.group, told.names.view, told.names.series})
      key.part(name);
    if (about.kit != diag::Subject::none)
      key.part(known_as(report_.kits[static_cast<std::size_t>(about.kit)].file));
    else
      key.part({});
    key.part(told.finding->definition->code);
    key.said(told.finding->message);
    return key.take();
  }

  /// Where a finding stands among the files of its protocol, whatever else is in the run.
  std::size_t depth_of(const Told& told) const {
    if (told.about == nullptr || told.about->file == diag::Subject::none) return 0;
    const auto& read = report_.files[static_cast<std::size_t>(told.about->file)].read;
    return static_cast<std::size_t>(std::find(read.begin(), read.end(), told.finding->span.file) -
                                    read.begin());
  }

  void number() {
    std::map<std::string, std::vector<Told*>> alike;
    for (Told& told : out_.list)
      alike[key_of(told)].push_back(&told);
    for (auto& [key, all] : alike) {
      std::stable_sort(all.begin(), all.end(), [&](const Told* a, const Told* b) {
        return std::tuple(depth_of(*a), a->finding->span.begin, a->finding->span.end) <
               std::tuple(depth_of(*b), b->finding->span.begin, b->finding->span.end);
      });
      for (std::size_t i = 0; i < all.size(); ++i) {
        constexpr std::size_t digits = 16;
        all[i]->id = text::sha256(key + std::to_string(i)).substr(0, digits);
      }
    }
  }

  void count(bool known_listed, std::size_t most) {
    const diag::Findings& findings = report_.findings;
    std::array<std::size_t, 3> listed{};
    std::vector<Told> known;
    std::vector<Told> others;
    for (Told& told : out_.list) {
      const auto s = static_cast<std::size_t>(told.finding->severity);
      if (told.finding->known) {
        ++out_.known;
        if (known_listed) known.push_back(std::move(told));
        continue;
      }
      ++listed[s];
      ++(told.finding->counts() ? out_.counts[s] : out_.accepted);
      others.push_back(std::move(told));
    }
    out_.list = std::move(others);
    for (const diag::Severity severity :
         {diag::Severity::advice, diag::Severity::warning, diag::Severity::error}) {
      const auto s = static_cast<std::size_t>(severity);
      out_.left_out[s] = findings.count(severity);
      for (const diag::Diagnostic& d : findings.all())
        out_.left_out[s] -= d.severity == severity && d.counts() ? 1 : 0;
      out_.counts[s] += out_.left_out[s];
    }
    if (out_.list.size() > most) cut(listed, most);
    out_.list.insert(out_.list.end(), std::make_move_iterator(known.begin()),
                     std::make_move_iterator(known.end()));
  }

  void cut(std::array<std::size_t, 3> listed, std::size_t room) {
    for (std::size_t s = listed.size(); s-- > 0;) {
      listed[s] = std::min(listed[s], room);
      room -= listed[s];
    }
    std::vector<Told> left;
    for (Told& told : out_.list) {
      const auto s = static_cast<std::size_t>(told.finding->severity);
      if (listed[s] > 0) {
        --listed[s];
        left.push_back(std::move(told));
      } else if (told.finding->accepted.empty()) {
        ++out_.left_out[s];
      }
    }
    out_.list = std::move(left);
  }

  const report::Report& report_;
  AllTold out_;
};

} // namespace

std::string about_text(const report::Report& report, const Told& told,
                       const wording::Language& in) {
  return told.about == nullptr ? std::string()
                               : about_text(report, *told.finding, {*told.about}, in);
}

AllTold told_apart(const report::Report& report, KnownOnes known) {
  return Teller(report).tell(known == KnownOnes::listed, diag::Findings::most);
}

AllTold all_told_apart(const report::Report& report) {
  return Teller(report).tell(true, std::numeric_limits<std::size_t>::max());
}

} // namespace norma::emit
