#include "server/findings.hpp"

#include <algorithm>

#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "text/utf8.hpp"

namespace norma::server {
namespace {

namespace frame = emit::frame;

/// Places of a report as those of an editor. Lines of a file are found once.
class Places {
 public:
  Places(const text::Sources& sources, Encoding encoding,
         const std::function<bool(const std::string&)>& is_open)
      : sources_(sources), encoding_(encoding), is_open_(is_open) {}

  Place operator()(text::Span span) {
    const text::Source& source = sources_[span.file];
    const auto known = lines_.find(span.file);
    // An editor shows no byte order mark of a file on the disk; in a text of its own it counts.
    const Lines& lines =
        known != lines_.end()
            ? known->second
            : lines_.emplace(span.file, Lines(source.bytes(), !is_open_(source.name())))
                  .first->second;
    return {source.name(), {lines.at(span.begin, encoding_), lines.at(span.end, encoding_)}};
  }

 private:
  const text::Sources& sources_;
  Encoding encoding_;
  const std::function<bool(const std::string&)>& is_open_;
  std::map<text::FileId, Lines> lines_;
};

Grave grave_of(const diag::Diagnostic& d) {
  if (!d.accepted.empty()) return Grave::hint;
  switch (d.severity) {
  case diag::Severity::error: return Grave::error;
  case diag::Severity::warning: return Grave::warning;
  case diag::Severity::advice: return Grave::information;
  }
  return Grave::error;
}

std::string message_of(const diag::Diagnostic& d, const report::Report& report,
                       const wording::Language& in) {
  std::string out = emit::about_text(report, d, d.about, in);
  if (!out.empty()) out += ": ";
  out += in.text(d.message);
  const auto add = [&](const diag::Said& more) { out += "\n" + in.text(more); };
  if (!d.accepted.empty()) add(frame::because(d.accepted));
  for (const diag::Said& note : d.notes)
    add(frame::note(note));
  for (const diag::Said& help : d.help)
    add(frame::help(help));
  return text::printable(out, true);
}

} // namespace

std::map<std::string, std::vector<Told>>
told_of(const report::Report& report, const std::string& path, const wording::Language& language,
        Encoding encoding, const std::function<bool(const std::string& path)>& is_open) {
  Places places(report.sources, encoding, is_open);
  std::map<std::string, std::vector<Told>> out;
  out[path];
  for (const diag::Diagnostic& d : report.findings.all()) {
    const Place place = d.span.known() ? places(d.span) : Place{path, {}};
    Told told{
        place.range, grave_of(d), std::string(d.definition->code), message_of(d, report, language),
        {},          {}};
    for (const diag::Label& label : d.labels) {
      if (label.span.known())
        told.related.push_back({places(label.span), text::printable(language.text(label.text))});
    }
    for (const diag::Fix& fix : d.fixes) {
      if (fix.span.known())
        told.edits.push_back({places(fix.span), fix.replacement, fix.safe,
                              std::string(report.sources.text(fix.span))});
    }
    out[place.path].push_back(std::move(told));
  }
  return out;
}

} // namespace norma::server
