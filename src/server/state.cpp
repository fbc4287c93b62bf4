#include "server/state.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "server/in_project.hpp"
#include "server/server_words.hpp"
#include "server/uri.hpp"
#include "text/version.hpp"

namespace norma::server {
namespace {

constexpr std::string_view our_section = "norma";
const std::string ask_settings = "norma.settings";
const std::string ask_kit = "norma.kit";
const std::string ask_watch = "norma.watch";

bool is_kit_path(const std::string& path) {
  return path.ends_with(".yaml") || path.ends_with(".yml");
}

} // namespace

State::State(Settings settings, std::function<void(const Out&)> send)
    : settings_(std::move(settings)), send_(std::move(send)),
      files_(std::make_shared<FolderFiles>()), workspace_(files_),
      page_(settings_.open_host, *settings_.language) {}

// Messages ----------------------------------------------------------------------------------------

void State::take(Read read, const workspace::Cancel& cancel) {
  if (std::holds_alternative<Ended>(read)) {
    ended_ = shut_down_ ? 0 : 1;
    return;
  }
  if (const auto* broken = std::get_if<Unreadable>(&read)) {
    const bool json = broken->why == Broken::json;
    answer(std::nullopt,
           Refusal{broken->no_request ? Refusal::invalid_request : Refusal::parse_error,
                   broken->no_request                ? said::no_request()
                   : json                            ? said::broken_json()
                   : broken->why == Broken::too_long ? said::too_long()
                                                     : said::broken_header()});
    return;
  }
  const auto& message = std::get<Incoming>(read);
  if (message.method.empty())
    answered(message);
  else if (message.id)
    request(message, cancel);
  else
    guarded([&] { notification(message); });
}

/// A fault ends what it happens in, and not the session.
void State::guarded(const std::function<void()>& what) {
  try {
    what();
  } catch (const std::exception& e) {
    show(said::fault(e.what()), true);
  }
}

void State::answer(const std::optional<In>& id, Reply reply) {
  Out out = {{"jsonrpc", "2.0"}};
  if (!id)
    out["id"] = nullptr;
  else if (id->is_string())
    out["id"] = id->get<std::string>();
  else
    out["id"] = id->get<std::int64_t>();
  if (auto* result = std::get_if<Out>(&reply)) {
    out["result"] = std::move(*result);
  } else {
    const auto& refused = std::get<Refusal>(reply);
    out["error"] = {{"code", static_cast<int>(refused.code)}, {"message", text(refused.why)}};
  }
  send_(out);
}

void State::notify(const std::string& method, Out params) {
  send_({{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
}

void State::ask(const std::string& method, Out params, const std::string& id) {
  send_({{"jsonrpc", "2.0"}, {"id", id}, {"method", method}, {"params", std::move(params)}});
}

void State::show(const diag::Said& said, bool error) {
  notify("window/showMessage", {{"type", error ? 1 : 3}, {"message", text(said)}});
}

void State::request(const Incoming& message, const workspace::Cancel& cancel) {
  const std::string& method = message.method;
  if (message.cancelled) return answer(message.id, Refusal{Refusal::cancelled, said::called_off()});
  if (method == "initialize") return answer(message.id, initialize(message.params));
  if (!started_) return answer(message.id, Refusal{Refusal::not_initialized, said::not_started()});
  if (shut_down_) return answer(message.id, Refusal{Refusal::invalid_request, said::shut_down()});
  if (method == "shutdown") {
    shut_down_ = true;
    return answer(message.id, Out(nullptr));
  }
  const Handler handler = handler_of(method);
  if (handler == nullptr)
    return answer(message.id, Refusal{Refusal::method_not_found, said::unknown_method(method)});
  Reply reply = Out(nullptr);
  try {
    reply = handler(*this, message.params, cancel);
  } catch (const std::exception& e) {
    reply = Refusal{Refusal::internal_error, said::fault(e.what())};
  }
  if (cancel.cancelled()) reply = Refusal{Refusal::cancelled, said::called_off()};
  answer(message.id, std::move(reply));
}

void State::notification(const Incoming& message) {
  const std::string& method = message.method;
  if (method == "exit") {
    ended_ = shut_down_ ? 0 : 1;
    return;
  }
  if (!started_ || shut_down_) return;
  if (method == "initialized") initialized();
  if (method == "textDocument/didOpen") did_open(message.params);
  if (method == "textDocument/didChange") did_change(message.params);
  if (method == "textDocument/didClose") did_close(message.params);
  if (method == "workspace/didChangeWatchedFiles") watched(message.params);
  if (method == "workspace/didChangeWorkspaceFolders") folders_changed(message.params);
  if (method == "workspace/didChangeConfiguration") {
    const In* settings = member(&message.params, "settings");
    if (settings != nullptr && !settings->is_null())
      configure(settings);
    else
      ask_for_settings();
  }
}

void State::answered(const Incoming& message) {
  const auto id = text_in(&*message.id);
  if (id == ask_settings && message.result.is_array() && !message.result.empty())
    set_kits(member(&message.result[0], "kit"));
  if (id == ask_kit) {
    if (const auto title = text_in(member(&message.result, "title")))
      choose_kits(title == text(said::no_kit()) ? std::vector<std::string>() : std::vector{*title});
  }
}

// What the editor is, and what it wants -----------------------------------------------------------

Reply State::initialize(const In& params) {
  if (started_) return Refusal{Refusal::invalid_request, said::started_twice()};
  started_ = true;
  const In* can = member(&params, "capabilities");
  if (const In* encodings = member(can, "general", "positionEncodings");
      encodings != nullptr && encodings->is_array()) {
    for (const In& one : *encodings) {
      if (one != "utf-8" && one != "utf-16") continue;
      encoding_ = one == "utf-8" ? Encoding::utf8 : Encoding::utf16;
      break;
    }
  }
  takes_versioned_edits_ = is_true(member(can, "workspace", "workspaceEdit", "documentChanges"));
  has_settings_ = is_true(member(can, "workspace", "configuration"));
  shows_documents_ = is_true(member(can, "window", "showDocument", "support"));
  watches_files_ =
      is_true(member(can, "workspace", "didChangeWatchedFiles", "dynamicRegistration"));
  const In* folders = member(&params, "workspaceFolders");
  if (folders != nullptr && folders->is_array()) {
    for (const In& folder : *folders) {
      if (const auto path = path_of(text_in(member(&folder, "uri")).value_or("")))
        open_folder(*path);
    }
  } else if (const auto path = path_of(text_in(member(&params, "rootUri")).value_or(""))) {
    open_folder(*path);
  }
  configure(member(&params, "initializationOptions"));
  return Out{{"capabilities", capabilities(encoding_, page_.can_listen())},
             {"serverInfo", {{"name", "norma"}, {"version", text::version()}}}};
}

void State::initialized() {
  if (watches_files_) {
    Out watchers = Out::array();
    for (const char* pattern : {"**/*.norma", "**/*.yaml", "**/*.yml"})
      watchers.push_back({{"globPattern", pattern}});
    const Out registration = {{"id", ask_watch},
                              {"method", "workspace/didChangeWatchedFiles"},
                              {"registerOptions", {{"watchers", std::move(watchers)}}}};
    ask("client/registerCapability", {{"registrations", Out::array({registration})}}, ask_watch);
  }
  ask_for_settings();
}

void State::ask_for_settings() {
  if (!has_settings_) return;
  ask("workspace/configuration", {{"items", Out::array({{{"section", our_section}}})}},
      ask_settings);
}

void State::open_folder(const std::string& path) {
  if (std::find(folders_.begin(), folders_.end(), path) != folders_.end()) return;
  folders_.push_back(path);
  files_->open(path);
}

void State::folders_changed(const In& params) {
  const auto each = [&](const char* key, const auto& what) {
    const In* list = member(&params, "event", key);
    if (list == nullptr || !list->is_array()) return;
    for (const In& one : *list) {
      if (const auto path = path_of(text_in(member(&one, "uri")).value_or(""))) what(*path);
    }
  };
  each("removed", [&](const std::string& path) {
    std::erase(folders_, path);
    files_->close(path);
  });
  each("added", [&](const std::string& path) { open_folder(path); });
  workspace_.refresh();
  make_all_stale();
}

/// `norma.kit`, with its section around it or without.
void State::configure(const In* settings) {
  const In* ours = member(settings, "norma");
  set_kits(member(ours != nullptr ? ours : settings, "kit"));
}

void State::set_kits(const In* kit) {
  if (kit == nullptr) return;
  std::vector<std::string> kits;
  constexpr std::size_t most_kits = 20;
  const auto add = [&](const In& one) {
    const auto path = text_in(&one);
    if (path && !path->empty() && path->size() <= longest_uri && kits.size() < most_kits)
      kits.push_back(*path);
  };
  if (kit->is_array())
    std::for_each(kit->begin(), kit->end(), add);
  else
    add(*kit);
  choose_kits(kits);
}

void State::choose_kits(const std::vector<std::string>& kits) {
  if (kits == kits_) return;
  kits_ = kits;
  complained_.clear();
  make_all_stale();
}

void State::ask_for_kit() {
  // A list to choose from is no longer than one can look over.
  constexpr std::size_t most_offered = 20;
  Out actions = Out::array();
  for (const std::string& folder : folders_) {
    auto found = text::files_below(folder, ".yaml");
    auto* paths = std::get_if<std::vector<std::string>>(&found);
    if (paths == nullptr) continue;
    constexpr std::size_t most_looked_at = 2000;
    if (paths->size() > most_looked_at) paths->resize(most_looked_at);
    for (const std::string& path : *paths) {
      const auto bytes = files_->read(path);
      const auto* text = std::get_if<std::string>(&bytes);
      if (text == nullptr || actions.size() >= most_offered) continue;
      Document document;
      document.path = path;
      document.text = std::make_shared<const Text>(*text);
      if (document.language() != Language::kit) continue;
      actions.push_back(
          {{"title", std::filesystem::path(path).lexically_relative(folder).string()}});
    }
  }
  if (actions.empty()) return show(said::no_kit_found(), false);
  actions.push_back({{"title", text(said::no_kit())}});
  ask("window/showMessageRequest",
      {{"type", 3}, {"message", text(said::choose_kit())}, {"actions", std::move(actions)}},
      ask_kit);
}

// Texts -------------------------------------------------------------------------------------------

void State::did_open(const In& params) {
  const In* in = member(&params, "textDocument");
  const auto uri = text_in(member(in, "uri"));
  const auto bytes = text_in(member(in, "text"));
  if (!uri || !bytes || uri->size() > longest_uri) return;
  Document document;
  document.uri = *uri;
  document.path = path_called(*uri);
  document.file = name_on_disk(document.path);
  document.language_id = text_in(member(in, "languageId")).value_or("");
  document.version = number_in(member(in, "version")).value_or(0);
  document.text = std::make_shared<const Text>(*bytes);
  // Without a folder a document's own is taken for it.
  if (folders_.empty() && path_of(*uri))
    open_folder(std::filesystem::path(document.path).parent_path().string());
  const Document& opened = documents_.open(std::move(document));
  if (page_.file().empty() && opened.language() == Language::protocol) page_.show_file(opened.file);
  changed_text(opened, workspace_.edit(opened.path, opened.text->bytes));
}

void State::did_change(const In& params) {
  const auto uri = text_in(member(&params, "textDocument", "uri"));
  Document* document = uri ? documents_.of_uri(*uri) : nullptr;
  const In* list = member(&params, "contentChanges");
  if (document == nullptr || list == nullptr || !list->is_array()) return;
  std::vector<Change> changes;
  for (const In& one : *list) {
    const auto text = text_in(member(&one, "text"));
    const In* range = member(&one, "range");
    Change change{range == nullptr ? std::nullopt : range_in(range), text.value_or("")};
    if (!text || (range != nullptr && !change.range)) {
      show(said::not_followed(*uri), true);
      return did_close(params);
    }
    changes.push_back(std::move(change));
  }
  auto text = changed(document->text, changes, encoding_);
  if (text == nullptr) {
    show(said::not_followed(*uri), true);
    return did_close(params);
  }
  document->text = std::move(text);
  document->version = number_in(member(&params, "textDocument", "version")).value_or(0);
  if (document->language() == Language::protocol) page_.show_file(document->file);
  changed_text(*document, workspace_.edit(document->path, document->text->bytes));
}

void State::did_close(const In& params) {
  const auto uri = text_in(member(&params, "textDocument", "uri"));
  const Document* document = uri ? documents_.of_uri(*uri) : nullptr;
  if (document == nullptr) return;
  const Document closed = *document;
  documents_.close(closed);
  std::erase(stale_, closed.file);
  good_.erase(closed.file);
  const auto told = workspace_.close(closed.path);
  const auto found = found_.find(closed.file);
  std::set<std::string> files{closed.file};
  if (found != found_.end()) {
    for (const auto& [file, findings] : found->second)
      files.insert(file);
    found_.erase(found);
  }
  changed_text(closed, told);
  for (const std::string& file : files)
    publish(file);
}

/// A file of the disk was changed, came or went.
void State::watched(const In& params) {
  const In* list = member(&params, "changes");
  if (list == nullptr || !list->is_array()) return;
  for (const In& one : *list) {
    const auto path = path_of(text_in(member(&one, "uri")).value_or(""));
    if (!path) continue;
    Document document;
    document.path = *path;
    document.file = name_on_disk(*path);
    if (documents_.of_file(document.file) != nullptr) continue; // the editor's own text counts
    std::erase_if(complained_, [&](const auto& kit) { return name_on_disk(kit) == document.file; });
    changed_text(document, workspace_.changed(*path));
  }
}

/// `told`: who builds on it. Where it is a kit that is held against, all protocols are.
void State::changed_text(const Document& document, const std::vector<std::string>& told) {
  forget_findings_in(document.file);
  if (document.file.ends_with("/" + std::string(text::project_file))) return make_all_stale();
  const auto is_it = [&](const std::string& kit) { return name_on_disk(kit) == document.file; };
  std::set<std::string> users;
  for (const std::string& path : told)
    users.insert(name_on_disk(path));
  const bool may_be_kit = is_kit_path(document.path);
  for (const auto& [file, open] : documents_.all()) {
    if (file == document.file) continue;
    bool touched = users.count(file) == 1;
    if (!touched && may_be_kit && open.language() == Language::protocol) {
      const auto kits = kit_paths(open);
      touched = std::any_of(kits.begin(), kits.end(), is_it);
    }
    if (touched) make_stale(file, false);
  }
  if (documents_.of_file(document.file) != nullptr) make_stale(document.file, true);
}

void State::make_stale(const std::string& file, bool first) {
  std::erase(stale_, file);
  stale_.insert(first ? stale_.begin() : stale_.end(), file);
}

void State::make_all_stale() {
  for (const auto& [file, document] : documents_.all())
    make_stale(file, false);
}

// Findings ----------------------------------------------------------------------------------------

/// Those that are set; else those of its project.
std::vector<std::string> State::kit_paths(const Document& document) const {
  if (kits_.empty()) return in_project(*files_, document.path).kits;
  std::string folder = files_->folder_of(document.path);
  if (folder.empty() && !folders_.empty()) folder = folders_.front();
  std::vector<std::string> out;
  for (const std::string& kit : kits_)
    out.push_back((std::filesystem::path(folder) / kit).lexically_normal().string());
  return out;
}

workspace::Ask State::ask_of(const Document& document) {
  const workspace::Snapshot files = snapshot();
  workspace::Ask ask;
  ask.on = settings_.on();
  ask.root = files_->root_of(document.path);
  const InProject project = in_project(*files_, document.path);
  ask.patients = project.patients;
  if (!project.broken.empty() && complained_.insert(project.broken).second)
    show(said::project_broken(project.broken), true);
  std::vector<std::string> readable;
  for (const std::string& kit : kit_paths(document)) {
    const auto read = files.kits({kit});
    if (const auto* missing = std::get_if<workspace::NoFile>(&read)) {
      if (complained_.insert(kit).second) show(said::cannot_read(kit, missing->error.why), true);
    } else {
      readable.push_back(kit);
    }
  }
  auto kits = files.kits(readable);
  if (auto* all = std::get_if<workspace::Kits>(&kits)) ask.kits = std::move(*all);
  return ask;
}

bool State::look_at(const Document& document, const workspace::Cancel& cancel) {
  const Language language = document.language();
  std::map<std::string, std::vector<Told>> found;
  const auto is_open = [&](const std::string& path) {
    return documents_.of_file(name_on_disk(path)) != nullptr;
  };
  const workspace::Snapshot files = snapshot();
  files.call(document.path);
  workspace::Answer<report::Report> report = workspace::Cancelled{};
  if (language == Language::protocol) {
    const auto parsed = files.parsed(document.path);
    const auto* read = std::get_if<std::shared_ptr<const workspace::Parsed>>(&parsed);
    if (read != nullptr && (*read)->findings.empty()) keep_good(document);
    report = files.report({document.path}, ask_of(document), cancel);
  } else if (language == Language::kit) {
    auto kit = files.kits({document.path});
    if (auto* missing = std::get_if<workspace::NoFile>(&kit)) {
      report = std::move(*missing);
    } else {
      workspace::Ask ask;
      ask.kits = std::get<workspace::Kits>(std::move(kit));
      ask.on = settings_.on();
      report = files.report({}, ask, cancel);
    }
  }
  if (cancel.cancelled()) return false;
  ++looked_at_;
  if (const auto* missing = std::get_if<workspace::NoFile>(&report))
    show(said::cannot_read(document.path, missing->error.why), true);
  if (const auto* whole = std::get_if<report::Report>(&report))
    found = told_of(*whole, document.path, *settings_.language, encoding_, is_open);
  std::map<std::string, std::vector<Told>> by_file;
  for (auto& [path, findings] : found)
    by_file[name_on_disk(path)] = std::move(findings);
  auto& known = found_[document.file];
  // Files of which it says what it said before are as they are.
  std::set<std::string> files_told{document.file};
  for (const auto& [file, findings] : known) {
    const auto now = by_file.find(file);
    if (now == by_file.end() || now->second != findings) files_told.insert(file);
  }
  for (const auto& [file, findings] : by_file) {
    if (known.count(file) == 0) files_told.insert(file);
  }
  known = std::move(by_file);
  std::erase(stale_, document.file);
  for (const std::string& file : files_told)
    publish(file);
  if (auto* whole = std::get_if<report::Report>(&report);
      whole != nullptr && language == Language::protocol && page_.wants(document.file))
    page_.show(std::make_shared<const report::Report>(std::move(*whole)));
  return true;
}

void State::work(const workspace::Cancel& cancel) {
  if (stale_.empty()) return;
  const Document* document = documents_.of_file(stale_.front());
  if (document == nullptr) {
    stale_.erase(stale_.begin());
    return;
  }
  const std::string file = document->file;
  bool done = true;
  guarded([&] {
    done = false;
    done = look_at(*document, cancel);
  });
  // Where it was neither done nor called off there was a fault: it is not tried for ever.
  if (!done && !cancel.cancelled()) std::erase(stale_, file);
}

const std::vector<Told>* State::found_in(const Document& document,
                                         const workspace::Cancel& cancel) {
  const bool stale = std::find(stale_.begin(), stale_.end(), document.file) != stale_.end();
  if (stale && !look_at(document, cancel)) return nullptr;
  return &found_[document.file][document.file];
}

std::shared_ptr<const Text> State::good_text(const Document& document) const {
  const auto found = good_.find(document.file);
  return found == good_.end() ? nullptr : found->second;
}

/// What others found in a text that is no longer there. That they had something to say of it is
/// kept: the editor is told when they have nothing more.
void State::forget_findings_in(const std::string& file) {
  for (auto& [by, found] : found_) {
    const auto here = found.find(file);
    if (here != found.end()) here->second.clear();
  }
}

void State::publish(const std::string& file) {
  std::vector<Told> all;
  for (const auto& [by, found] : found_) {
    const auto here = found.find(file);
    if (here != found.end()) all.insert(all.end(), here->second.begin(), here->second.end());
  }
  // In their order; what is found from several documents is told once.
  std::stable_sort(all.begin(), all.end(),
                   [](const Told& a, const Told& b) { return a.range < b.range; });
  std::vector<Told> each;
  for (Told& one : all) {
    if (std::find(each.rbegin(), each.rend(), one) == each.rend()) each.push_back(std::move(one));
  }
  Out params = {{"uri", uri_of_file(file)}};
  const Document* document = documents_.of_file(file);
  if (document != nullptr) params["version"] = document->version;
  params["diagnostics"] = Out::array();
  for (const Told& one : each)
    params["diagnostics"].push_back(json_of(one, *this));
  std::string now = written(params);
  std::string& last = published_[file];
  const bool nothing = document == nullptr && each.empty();
  if (now == last || (nothing && last.empty())) return;
  last = nothing ? std::string() : std::move(now);
  notify("textDocument/publishDiagnostics", std::move(params));
}

std::string State::uri_of_file(const std::string& path) const {
  const Document* document = documents_.of_file(name_on_disk(path));
  return document == nullptr ? uri_of(path) : document->uri;
}

Out State::workspace_edit(const std::vector<Edit>& edits) const {
  std::map<std::string, Out> by_uri;
  std::map<std::string, std::optional<std::int64_t>> versions;
  for (const Edit& edit : edits) {
    const std::string uri = uri_of_file(edit.place.path);
    const Document* document = documents_.of_file(name_on_disk(edit.place.path));
    versions[uri] = document == nullptr ? std::nullopt : std::optional(document->version);
    Out& list = by_uri.try_emplace(uri, Out::array()).first->second;
    list.push_back({{"range", json_of(edit.place.range)}, {"newText", edit.text}});
  }
  if (!takes_versioned_edits_) {
    Out changes = Out::object();
    for (auto& [uri, list] : by_uri)
      changes[uri] = std::move(list);
    return {{"changes", std::move(changes)}};
  }
  Out changes = Out::array();
  for (auto& [uri, list] : by_uri) {
    Out version = nullptr;
    if (versions[uri]) version = *versions[uri];
    changes.push_back({{"textDocument", {{"uri", uri}, {"version", std::move(version)}}},
                       {"edits", std::move(list)}});
  }
  return {{"documentChanges", std::move(changes)}};
}

} // namespace norma::server
