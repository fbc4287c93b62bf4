#include "told.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <utility>

#include "physics/anatomy/tooth.hpp"
#include "words/codes.hpp"

namespace norma::test::meta {
namespace {

using Json = nlohmann::ordered_json;

std::string text_of(const Json& j) { return j.is_string() ? j.get<std::string>() : j.dump(); }

/// `key` of an object, as text; "" where it has none.
std::string text_of(const Json& j, const char* key) {
  return j.contains(key) ? text_of(j[key]) : std::string();
}

std::string joined(const Json& list) {
  std::string out;
  for (const Json& item : list)
    out += (out.empty() ? "" : "; ") + text_of(item);
  return out;
}

/// A view with its group of patients, where there are several; "" for none.
std::string view_of(const Json& about) {
  const std::string view = text_of(about, "view");
  return view.empty() || !about.contains("group")
             ? view
             : fmt::format("{} ({})", view, text_of(about, "group"));
}

std::string place(const Json& j) {
  return fmt::format("{}:{}:{}", text_of(j, "file"), text_of(j, "line"), text_of(j, "column"));
}

bool is_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || (static_cast<unsigned char>(c) & 0x80);
}

bool is_signed(std::string_view s) {
  return s.size() > 1 && s.front() == '-' && std::isdigit(static_cast<unsigned char>(s[1])) != 0;
}

/// Words, numbers with their signs, and everything between them.
std::vector<std::string> pieces(std::string_view line) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    const bool point = c == '.' && i > 0 && i + 1 < line.size() &&
                       std::isdigit(static_cast<unsigned char>(line[i - 1])) != 0 &&
                       std::isdigit(static_cast<unsigned char>(line[i + 1])) != 0;
    const auto digit = [&](std::size_t k) {
      return k < line.size() && std::isdigit(static_cast<unsigned char>(line[k])) != 0;
    };
    const bool sign = i > 1 && line[i - 1] == '-' && line[i - 2] == ' ' && digit(i);
    const bool goes_on = !out.empty() && i > 0 && (is_word(c) || point) &&
                         (sign || ((is_word(line[i - 1]) || line[i - 1] == '.') &&
                                   (is_word(out.back()[0]) || is_signed(out.back()))));
    if (goes_on) {
      out.back() += c;
    } else {
      out.emplace_back(1, c);
    }
  }
  return out;
}

bool is_number(std::string_view s) {
  if (is_signed(s)) s.remove_prefix(1);
  return !s.empty() &&
         std::all_of(s.begin(), s.end(), [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
}

/// Is the piece at `i` a tooth: two digits that are one, with no sign of a quantity around them?
bool is_tooth(const std::vector<std::string>& p, std::size_t i) {
  if (p[i].size() != 2 || !is_number(p[i])) return false;
  if (!physics::Tooth::from_iso(std::stoi(p[i]))) return false;
  const auto at = [&](std::size_t k) { return k < p.size() ? p[k] : std::string(); };
  const std::string before = i > 0 ? p[i - 1] : "";
  if (before == "/" || before == ":" || before == "-" || before == "+" || before == "_" ||
      before == "=" || before == ".")
    return false;
  if (i > 1 && before == " " && (p[i - 2] == "x" || p[i - 2] == "ISO")) return false;
  const std::string next = at(i + 1);
  if ((next == ":" && is_number(at(i + 2))) || next == "/" || next == "%" || next == "_")
    return false;
  static const std::set<std::string> units{
      "mm",      "deg",   "s",     "lx",   "x",    "stop",    "stops", "of", "times", "months",
      "percent", "views", "hands", "hand", "days", "minutes", "m",     "K",  "mired"};
  return !(next == " " && units.count(at(i + 2)) == 1) && !(next == " " && at(i + 2) == "%");
}

std::string other_side(const std::string& word) {
  static const std::map<std::string, std::string> pairs{{"left", "right"},
                                                        {"right", "left"},
                                                        {"Left", "Right"},
                                                        {"Right", "Left"},
                                                        // In the terms of view codes.
                                                        {"RB", "LB"},
                                                        {"LB", "RB"},
                                                        {"RL", "LL"},
                                                        {"LL", "RL"},
                                                        {"RP", "LP"},
                                                        {"LP", "RP"}};
  if (const words::ViewCode* code = words::find_code(word))
    return std::string(words::other_side(*code)->code);
  const auto found = pairs.find(word);
  return found == pairs.end() ? word : found->second;
}

/// `comes out right`, `left out`, `is left as it is`: no sides.
bool is_no_side(const std::vector<std::string>& p, std::size_t i) {
  const std::string before = i > 1 ? p[i - 2] : "";
  const std::string behind = i + 2 < p.size() ? p[i + 2] : "";
  if (p[i] == "right")
    return before == "out" || before == "found" || before == "falls" || behind == "exposure" ||
           behind == "before" || behind == "behind";
  return p[i] == "left" && (behind == "out" || behind == "as" || before == "is" || before == "are");
}

/// Patient Orientation (DICOM PS3.3 C.7.6.1.1.1), where left and right have changed over: the
/// picture is turned over, too, so that its rows run the other way.
std::string orientation_changed(std::string_view line) {
  static const std::regex axes("([RLAPHF]{1,3})\\\\([RLAPHF]{1,3})");
  const auto swapped = [](std::string letters, std::string_view pairs) {
    for (char& c : letters) {
      const std::size_t i = pairs.find(c);
      if (i != std::string_view::npos) c = pairs[i ^ 1];
    }
    return letters;
  };
  const std::string text(line);
  std::string out;
  std::size_t at = 0;
  for (std::sregex_iterator it(text.begin(), text.end(), axes), end; it != end; ++it) {
    const auto begin = static_cast<std::size_t>(it->position());
    out += text.substr(at, begin - at) + swapped((*it)[1], "APHF") + "\\" + swapped((*it)[2], "LR");
    at = begin + static_cast<std::size_t>(it->length());
  }
  return out + text.substr(at);
}

} // namespace

Lines findings_of(std::string_view document, Also also) {
  const Json all = Json::parse(document, nullptr, false);
  if (!all.is_object()) return {"the run ended with: " + std::string(document)};
  Lines out;
  for (const Json& f : all["findings"]) {
    const Json& about = f["about"];
    std::string line = fmt::format("{} {}", text_of(f, "code"), text_of(f, "severity"));
    if (about.contains("kit")) line += " with " + text_of(about, "kit");
    line += ": " + text_of(f, "message");
    if (f.contains("accepted_because")) line += " | accepted " + text_of(f, "accepted_because");
    if (f.contains("evidence")) {
      for (const Json& e : f["evidence"]) {
        line += fmt::format(" | {} {} {} {} {}", text_of(e, "quantity"), text_of(e, "actual"),
                            text_of(e, "relation"), text_of(e, "limit"), text_of(e, "unit"));
      }
    }
    if (f.contains("notes")) line += " | note " + joined(f["notes"]);
    if (f.contains("help")) line += " | help " + joined(f["help"]);
    if (f.contains("see")) {
      for (const Json& s : f["see"])
        line += " | see " + text_of(s, "text") + (also.places ? " " + place(s["place"]) : "");
    }
    if (also.ids) line += " | id " + text_of(f, "id");
    if (also.places && f.contains("place")) line += " | at " + place(f["place"]);
    if (also.places)
      line = fmt::format("{} in {}: {}", text_of(about, "protocol"), text_of(about, "file"), line);
    if (about.contains("series"))
      line = fmt::format("series {}: {}", text_of(about, "series"), line);
    const std::string view = view_of(about);
    out.push_back(view.empty() ? line : fmt::format("view {}: {}", view, line));
  }
  for (const Json& q : all["not_checked"]) {
    const Json& about = q["about"];
    out.push_back(fmt::format("not checked{}{}{}: {} (missing: {})",
                              about.contains("view") ? ", view " + view_of(about) : "",
                              about.contains("kit") ? ", with " + text_of(about, "kit") : "",
                              also.places ? " in " + text_of(about, "file") : "",
                              text_of(q, "what"), text_of(q, "missing")));
  }
  if (also.counts) out.push_back("counts " + all["counts"].dump());
  return out;
}

std::vector<Shown> shown_in(std::string_view document) {
  std::vector<Shown> out;
  const Json all = Json::parse(document, nullptr, false);
  if (!all.is_object()) return out;
  for (const Json& f : all["findings"])
    out.push_back({text_of(f, "code"), text_of(f, "message"), text_of(f["about"], "kit")});
  return out;
}

std::vector<std::size_t> refused_lines(std::string_view document, std::string_view file) {
  std::vector<std::size_t> out;
  const Json all = Json::parse(document, nullptr, false);
  if (!all.is_object()) return out;
  for (const Json& f : all["findings"]) {
    const std::string code = text_of(f, "code");
    const bool of_text = code[0] == 'S' || code[0] == 'R' || code[0] == 'M';
    if (!of_text || text_of(f, "severity") != "error" || !f.contains("place")) continue;
    if (text_of(f["place"], "file") == file) out.push_back(f["place"]["line"].get<std::size_t>());
  }
  return out;
}

std::vector<std::pair<std::string, std::string>> acceptable(std::string_view document) {
  std::vector<std::pair<std::string, std::string>> out;
  const Json all = Json::parse(document, nullptr, false);
  if (!all.is_object()) return out;
  for (const Json& f : all["findings"]) {
    if (f["about"].contains("view"))
      out.emplace_back(text_of(f, "name"), text_of(f["about"], "view"));
  }
  return out;
}

namespace {

void add_facts(const Json& facts, const std::string& where, Lines& out) {
  for (const Json& f : facts) {
    std::string line = fmt::format("{}fact {}: {}", where, text_of(f, "id"), text_of(f, "state"));
    const Json& value = f["value"];
    if (value.is_number()) line += " | number " + text_of(value);
    // What is no number is held by its text: words in it may stand in another order.
    if (value.is_object() && value.contains("number"))
      line += fmt::format(" | number {} {}", text_of(value, "number"), text_of(value, "unit"));
    for (const char* key : {"text", "status"}) {
      if (!f[key].is_null()) line += fmt::format(" | {} {}", key, text_of(f, key));
    }
    if (!f["why"].is_null()) line += " | why " + text_of(f["why"], "text");
    if (!f["inputs"].empty()) line += " | inputs " + text_of(f, "inputs");
    out.push_back(std::move(line));
  }
}

} // namespace

Lines facts_of(std::string_view document) {
  const Json all = Json::parse(document, nullptr, false);
  if (!all.is_object()) return {"the run ended with: " + std::string(document)};
  Lines out;
  for (const Json& plan : all["plans"]) {
    const std::string kit = plan["kit"].is_null()
                                ? "null"
                                : text_of(all["kits"][plan["kit"].get<std::size_t>()], "name");
    const std::string of =
        fmt::format("{} for {} with {}: ", text_of(plan, "protocol"), text_of(plan, "group"), kit);
    out.push_back(of + "title " + text_of(plan, "title"));
    for (const Json& asked : plan["asked"]) {
      if (asked["word"] != "revision") continue;
      for (const Json& clause : asked["clauses"])
        out.push_back(of + "revision " + text_of(clause, "text"));
    }
    if (!plan["fingerprint"].is_null()) {
      for (const auto& [name, value] : plan["fingerprint"].items())
        out.push_back(fmt::format("{}fingerprint {} {}", of, name, text_of(value)));
    }
    add_facts(plan["facts"], of, out);
    for (const Json& s : plan["series"]) {
      const std::string where = fmt::format("{}series {}: ", of, text_of(s, "name"));
      for (const Json& v : s["views"])
        out.push_back(fmt::format("{}lists {} {} {}", where, text_of(v, "view"),
                                  text_of(v, "optional"), text_of(v, "instead_of")));
      std::size_t row = 0;
      for (const Json& r : s["laid_out"]) {
        ++row;
        for (const Json& name : r["views"])
          out.push_back(fmt::format("{}row no_{}: {}", where, row, text_of(name)));
      }
      add_facts(s["facts"], where, out);
    }
    for (const Json& v : plan["views"]) {
      const std::string where = fmt::format("{}view {}: ", of, text_of(v, "name"));
      out.push_back(where + "title " + text_of(v, "title"));
      if (!v["code"].is_null())
        out.back() += " code " + text_of(v["code"], "code") + " " + text_of(v["code"], "term");
      add_facts(v["facts"], where, out);
      for (const Json& t : v["shown"]) {
        out.push_back(fmt::format("{}shown {} , {} framed={} seen={} turned={}", where,
                                  text_of(t, "tooth"), text_of(t, "surface"), text_of(t, "framed"),
                                  text_of(t, "seen"), text_of(t, "turned")));
      }
      for (const Json& q : v["not_checked"])
        out.push_back(fmt::format("{}not checked: {} (missing: {})", where,
                                  text_of(q["what"], "text"), text_of(q["missing"], "text")));
      std::size_t number = 0;
      for (const Json& act : v["acts"]) {
        out.push_back(fmt::format("{}step no_{}: {} {} {}", where, ++number, text_of(act, "when"),
                                  text_of(act, "who"), text_of(act, "text")));
      }
    }
  }
  return out;
}

Difference difference_of(Lines first, Lines second) {
  std::sort(first.begin(), first.end());
  std::sort(second.begin(), second.end());
  Difference out;
  std::set_difference(first.begin(), first.end(), second.begin(), second.end(),
                      std::back_inserter(out.only_first));
  std::set_difference(second.begin(), second.end(), first.begin(), first.end(),
                      std::back_inserter(out.only_second));
  return out;
}

Difference difference_of_sets(Lines first, Lines second) {
  for (Lines* lines : {&first, &second}) {
    std::sort(lines->begin(), lines->end());
    lines->erase(std::unique(lines->begin(), lines->end()), lines->end());
  }
  return difference_of(std::move(first), std::move(second));
}

namespace {

/// Alike but for numbers that are next to each other.
bool near(const std::string& a, const std::string& b) {
  const std::vector<std::string> p = pieces(a);
  const std::vector<std::string> q = pieces(b);
  if (p.size() != q.size()) return false;
  for (std::size_t i = 0; i < p.size(); ++i) {
    if (p[i] == q[i]) continue;
    if (!is_number(p[i]) || !is_number(q[i])) return false;
    const auto digits = [](const std::string& s) {
      const std::size_t dot = s.find('.');
      return dot == std::string::npos ? 0 : static_cast<int>(s.size() - dot - 1);
    };
    // One in the last place that is printed; whole numbers count things and do not round.
    const int places = std::max(digits(p[i]), digits(q[i]));
    if (places == 0) return false;
    const double step = std::pow(10.0, -std::min(places, 6));
    if (std::abs(std::stod(p[i]) - std::stod(q[i])) > 1.01 * step) return false;
  }
  return true;
}

} // namespace

Difference without_rounding(Difference d) {
  for (auto a = d.only_first.begin(); a != d.only_first.end();) {
    const auto b = std::find_if(d.only_second.begin(), d.only_second.end(),
                                [&](const std::string& s) { return near(*a, s); });
    if (b == d.only_second.end()) {
      ++a;
      continue;
    }
    d.only_second.erase(b);
    a = d.only_first.erase(a);
  }
  return d;
}

std::string words_in_order(std::string_view line) {
  // What is said of which view and fact stays in front; the words behind it are put in order.
  std::vector<std::string> words;
  for (std::string& p : pieces(line)) {
    // Half a turn is half a turn both ways.
    if (is_signed(p) && (std::stod(p) == 0 || std::stod(p) == -180)) p.erase(0, 1);
    if (is_word(p[0]) || is_signed(p)) words.push_back(std::move(p));
  }
  std::sort(words.begin(), words.end());
  std::string out = std::string(line.substr(0, line.find(": ") + 1));
  for (const std::string& w : words)
    out += " " + w;
  return out;
}

std::string side_changed(std::string_view line) {
  // Angles about the midline or the camera's axis go the other way.
  static const std::regex turning("fact (azimuth|roll|cant|asymmetry|camera_azimuth): ");
  const std::string text = orientation_changed(line);
  // A fact that is a number names no teeth; why it is none may.
  const bool number = line.find(" | number ") != std::string_view::npos ||
                      line.find(" | nearest ") != std::string_view::npos;
  const std::size_t why = text.find(" | why ");
  std::smatch m;
  const std::size_t from = std::regex_search(text, m, turning)
                               ? static_cast<std::size_t>(m.position() + m.length())
                               : text.size();
  const std::vector<std::string> p = pieces(text);
  std::string out;
  std::size_t at = 0; // in the old text
  for (std::size_t i = 0; i < p.size(); ++i) {
    if (at >= from && is_number(p[i])) {
      out += is_signed(p[i]) ? p[i].substr(1) : "-" + p[i];
    } else if ((!number || at > why) && is_tooth(p, i)) {
      const auto tooth = physics::Tooth::from_iso(std::stoi(p[i]));
      out += std::to_string(tooth->other_side().iso());
    } else if (!is_no_side(p, i)) {
      out += other_side(p[i]);
    } else {
      out += p[i];
    }
    at += p[i].size();
  }
  return out;
}

Lines lines_of(std::string_view text) {
  Lines out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    const std::string_view line = text.substr(at, stop - at);
    const std::size_t end = line.find_last_not_of(" \r");
    if (end != std::string_view::npos) out.emplace_back(line.substr(0, end + 1));
    at = stop + 1;
  }
  return out;
}

} // namespace norma::test::meta
