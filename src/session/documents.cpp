#include "session/documents.hpp"

#include <algorithm>
#include <utility>

#include "model/declared.hpp"
#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "model/show.hpp"
#include "model/write.hpp"
#include "syntax/tidy.hpp"
#include "workspace/workspace.hpp"

namespace norma::session {
namespace {

workspace::Snapshot snapshot_of(const text::Files& files, const std::vector<Overlay>& overlays) {
  workspace::Workspace all(std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files),
                           std::make_shared<workspace::Store>(workspace::Limits::batch()));
  for (const Overlay& over : overlays)
    all.edit(over.path, over.text);
  return all.snapshot();
}

/// Is there more amiss with the files of a protocol than that its base is not to be had?
bool is_read_whole(const workspace::Built& built) {
  const auto& base = built.protocol->base;
  const auto about_base = [&](const diag::Diagnostic& d) {
    return base && d.span.file == base->span.file && d.span.begin >= base->span.begin &&
           d.span.end <= base->span.end;
  };
  for (const workspace::File& file : built.files) {
    const auto& all = file.findings->all();
    const bool amiss = std::any_of(all.begin(), all.end(), [&](const diag::Diagnostic& d) {
      return d.severity == diag::Severity::error && !about_base(d);
    });
    if (amiss) return false;
  }
  return true;
}

/// For comparing: nothing that somebody wrote may be left out in silence, so that a file which was
/// not read whole stands there as it is.
std::optional<std::string> plainly(const workspace::Built& built,
                                   const std::vector<std::optional<model::Group>>& groups,
                                   const std::string& group) {
  const std::string own = model::unread_plainly(*built.files.front().version->source);
  if (!is_read_whole(built)) return own;
  const bool on_base = model::is_on_its_base(*built.protocol);
  std::optional<std::string> out;
  for (const auto& g : groups) {
    const bool wanted = group.empty() || (g && model::to_text(*g) == group) || !on_base;
    if (!wanted) continue;
    diag::Findings found;
    std::string text = model::shown_plainly(*built.protocol, g, found);
    if (found.count(diag::Severity::error) > 0) return own;
    out = out ? *out + "\n" + text : std::move(text);
    if (!on_base) break; // it is as it is written, for all of them
  }
  return out;
}

/// `found`, with its places in the sources of `run`: the files that it is built of.
void tell(const workspace::Built& built, diag::Findings found, DocumentRun& run) {
  for (const workspace::File& file : built.files)
    run.report.sources.share(file.version->source);
  found.move_places([&](text::Span span) {
    const auto place =
        std::find_if(built.files.begin(), built.files.end(),
                     [&](const workspace::File& f) { return f.version->id == span.file; });
    if (span.known()) span.file = static_cast<text::FileId>(place - built.files.begin());
    return span;
  });
  run.report.findings = std::move(found);
  run.report.findings.settle();
}

} // namespace

std::unique_ptr<DocumentRun> show(const text::Files& files, const std::string& path,
                                  const std::string& root, const std::string& group,
                                  const std::vector<Overlay>& overlays, Showing showing) {
  const bool plain = showing == Showing::plain;
  auto run = std::make_unique<DocumentRun>();
  const auto answer = snapshot_of(files, overlays).built(path, root);
  if (const auto* missing = std::get_if<workspace::NoFile>(&answer)) {
    run->unreadable = missing->error;
    return run;
  }
  const workspace::Built& built = *std::get<std::shared_ptr<const workspace::Built>>(answer);
  diag::Findings found;
  for (const workspace::File& file : built.files)
    found.append(*file.findings);
  const auto place_of = [&](text::FileId id) {
    return std::find_if(built.files.begin(), built.files.end(),
                        [&](const workspace::File& f) { return f.version->id == id; });
  };
  if (built.protocol != nullptr) {
    const model::Declared& declared = *built.protocol;
    const auto groups = model::groups_of(declared);
    for (const auto& g : groups) {
      if (g) run->groups.push_back(model::to_text(*g));
    }
    if (plain) run->made = plainly(built, groups, group);
    for (const auto& g : groups) {
      const bool wanted = group.empty() || (g && model::to_text(*g) == group);
      if (!wanted || plain) continue;
      static_cast<void>(model::resolve(declared, g, found)); // reports what is wrong
      run->made = model::shown(
          declared, g,
          [&](text::FileId id) -> const text::Source& { return *place_of(id)->version->source; },
          found);
      break;
    }
  } else if (plain) {
    run->made = model::unread_plainly(*built.files.front().version->source);
  }
  tell(built, std::move(found), *run);
  return run;
}

FollowRun follow(const text::Files& files, const std::string& path, const std::string& root) {
  FollowRun out{std::make_unique<DocumentRun>(), {}};
  const workspace::Snapshot snapshot = snapshot_of(files, {});
  const auto answer = snapshot.built(path, root);
  if (const auto* missing = std::get_if<workspace::NoFile>(&answer)) {
    out.run->unreadable = missing->error;
    return out;
  }
  const auto& built = *std::get<std::shared_ptr<const workspace::Built>>(answer);
  diag::Findings found;
  for (const workspace::File& file : built.files)
    found.append(*file.findings);
  const auto own = std::get<std::shared_ptr<const workspace::Parsed>>(snapshot.parsed(path));
  diag::Findings said_again; // they stand with the file
  const text::Source& source = *own->version->source;
  const auto declared = model::declare(own->tree, source, own->findings.empty(), said_again);
  if (declared && declared->base && built.files.size() > 1) {
    const auto base = snapshot.built(built.files[1].version->source->name(), root);
    const auto* of_base = std::get_if<std::shared_ptr<const workspace::Built>>(&base);
    if (of_base != nullptr && (*of_base)->protocol != nullptr) {
      const model::Base& named = *declared->base;
      Followed followed{
          (*of_base)->protocol->name, named.as_of,
          model::fingerprint_of_all(*(*of_base)->protocol).substr(0, model::short_fingerprint),
          std::string(source.bytes())};
      const std::string quoted = model::quoted(followed.now);
      if (named.as_of_span.known()) {
        followed.text.replace(named.as_of_span.begin, named.as_of_span.end - named.as_of_span.begin,
                              quoted);
      } else {
        followed.text.insert(named.path_span.end, " as of " + quoted);
      }
      out.followed = std::move(followed);
    }
  }
  tell(built, std::move(found), *out.run);
  return out;
}

std::unique_ptr<DocumentRun> tidy(const text::Files& files, const std::string& path,
                                  const std::vector<Overlay>& overlays) {
  auto run = std::make_unique<DocumentRun>();
  const auto answer = snapshot_of(files, overlays).parsed(path);
  if (const auto* missing = std::get_if<workspace::NoFile>(&answer)) {
    run->unreadable = missing->error;
    return run;
  }
  const workspace::Parsed& parsed = *std::get<std::shared_ptr<const workspace::Parsed>>(answer);
  const text::FileId file = run->report.sources.share(parsed.version->source);
  run->report.findings = parsed.findings;
  run->report.findings.move_places([&](text::Span span) {
    return text::Span{file, span.begin, span.end};
  });
  run->report.findings.settle();
  if (run->report.findings.empty())
    run->made = syntax::tidied(parsed.tree, run->report.sources[file]);
  return run;
}

} // namespace norma::session
