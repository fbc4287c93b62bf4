#include "model/library.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "model/extend.hpp"
#include "syntax/parser.hpp"

namespace norma::model {

namespace catalogue = diag::catalogue;

std::variant<const Declared*, text::ReadError> Library::open(const std::string& path,
                                                             diag::Findings& findings) {
  auto opened = open(path);
  for (auto& [id, entry] : entries_) {
    findings.append(std::move(entry.findings));
    entry.findings = {};
  }
  return opened;
}

std::map<std::string, diag::Findings*> Library::findings() {
  std::map<std::string, diag::Findings*> out;
  for (auto& [id, entry] : entries_)
    out.emplace(id, &entry.findings);
  return out;
}

Declared Library::close(const Declared& opened) {
  Declared last;
  for (auto& [id, entry] : entries_) {
    if (entry.protocol && &*entry.protocol == &opened) last = std::move(*entry.protocol);
    entry.protocol = std::nullopt;
  }
  return last;
}

std::variant<const Declared*, text::ReadError> Library::open(const std::string& path) {
  if (last_ != nullptr && last_->protocol && !last_->is_base) {
    last_->protocol = std::nullopt;
    last_->let_go = true;
  }
  last_ = nullptr;
  std::string root;
  const text::Located at = place_of(path, root);
  if (auto error = load(at, root, 0)) return *error;
  opened_[path] = at.id;
  last_ = &entries_.at(at.id);
  return last_->protocol ? &*last_->protocol : nullptr;
}

/// Where a file that was named by whoever runs norma lies, and what bounds its imports. It may lie
/// anywhere; bases may not. The files of a folder lie where the first one does, but for links.
text::Located Library::place_of(const std::string& path, std::string& root) {
  const std::size_t slash = path.rfind('/') + 1; // 0 where there is none
  const std::string name = path.substr(slash);
  const bool plain = !name.empty() && name != "." && name != ".." && !files_.is_link(path);
  const std::string folder = path.substr(0, slash);
  if (const auto known = folders_.find(folder); plain && known != folders_.end()) {
    root = known->second.root;
    return {known->second.real + name, path};
  }
  root = root_.empty() ? files_.root_of(path) : root_;
  text::Located at{path, path};
  const text::LocateResult located = files_.locate(path, name, root);
  const auto* found = std::get_if<text::Located>(&located);
  if (found != nullptr) at.id = found->id;
  if (plain && at.id.ends_with(name))
    folders_[folder] = {at.id.substr(0, at.id.size() - name.size()), root};
  return at;
}

std::vector<text::FileId> Library::made_of(const std::string& path) const {
  std::vector<text::FileId> out;
  const auto opened = opened_.find(path);
  if (opened == opened_.end()) return out;
  for (std::string id = opened->second; !id.empty();) {
    const Entry& entry = entries_.at(id);
    if (std::find(out.begin(), out.end(), entry.file) != out.end()) break; // in a circle
    out.push_back(entry.file);
    id = entry.base;
  }
  return out;
}

std::optional<text::ReadError> Library::load(const text::Located& at, const std::string& root,
                                             int depth) {
  const auto known = entries_.find(at.id);
  if (known != entries_.end() && !known->second.let_go) return std::nullopt;
  diag::Findings told_before;
  const bool again = known != entries_.end();
  if (!again) {
    text::ReadResult bytes = files_.read(at.path);
    if (auto* error = std::get_if<text::ReadError>(&bytes)) return std::move(*error);
    entries_[at.id].file = sources_.add(at.path, std::move(std::get<std::string>(bytes)));
  }
  Entry& entry = entries_[at.id]; // it stays where it is, whatever else is loaded
  entry.reading = true;
  entry.let_go = false;
  diag::Findings& findings = again ? told_before : entry.findings;
  diag::Findings in_text;
  const syntax::Tree tree = syntax::parse(entry.file, sources_, in_text);
  const bool sound = in_text.empty();
  findings.append(std::move(in_text));
  std::optional<Declared> own = declare(tree, sources_[entry.file], sound, findings);
  // What it builds on was kept, so reading it again goes no deeper.
  if (own && own->base) build(*own, at, root, again ? 0 : depth, findings);
  if (own && !again && (declared_ += own->size()) > most_declared) {
    findings.add(diag::make(
        catalogue::protocol_too_large, own->heading,
        fmt::format("with it there are more than {} statements in all protocols of this run",
                    most_declared)));
    own = std::nullopt;
  }
  entry.protocol = std::move(own);
  entry.reading = false;
  return std::nullopt;
}

/// Reads the base of `own` and lays `own` on it.
void Library::build(Declared& own, const text::Located& from, const std::string& root, int depth,
                    diag::Findings& findings) {
  const Base base = *own.base;
  own.sound = false; // until the base is there, nothing is said of what is missing
  if (depth >= deepest_base) {
    findings.add(diag::make(catalogue::built_too_deep, base.span, deepest_base));
    return;
  }
  const text::LocateResult located = files_.locate(from.path, base.path, root);
  if (const auto* error = std::get_if<text::ReadError>(&located)) {
    if (error->kind == text::ReadError::Kind::outside) {
      findings.add(diag::make(catalogue::base_outside, base.path_span, base.path))
          .with_note("bases are read from the nearest folder above that holds .git, or from the "
                     "folder of the file, or from --root")
          .with_help("write the way to the file from this one: from \"../five.norma\"");
    } else {
      findings.add(diag::make(catalogue::base_unreadable, base.path_span, base.path, error->why));
    }
    return;
  }
  const text::Located& at = std::get<text::Located>(located);
  if (const auto error = load(at, root, depth + 1)) {
    findings.add(diag::make(catalogue::base_unreadable, base.path_span, base.path, error->why));
    return;
  }
  entries_.at(from.id).base = at.id;
  Entry& entry = entries_.at(at.id);
  entry.is_base = true;
  if (entry.reading) {
    findings.add(diag::make(catalogue::goes_in_circles, base.span,
                            fmt::format("{} builds on itself by way of {}", from.path, at.path)));
    return;
  }
  if (!entry.protocol) return; // reported there
  if (entry.protocol->name != base.name) {
    findings
        .add(diag::make(catalogue::base_name_differs, base.span, at.path, entry.protocol->name,
                        base.name))
        .with_help(
            fmt::format("write `builds on {} from \"{}\"`", entry.protocol->name, base.path));
    return;
  }
  own.sound = true;
  own = extended(*entry.protocol, std::move(own), findings);
}

} // namespace norma::model
