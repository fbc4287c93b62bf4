// What the server knows of its editor, and what it does with messages. One thread.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "diag/sentence.hpp"
#include "server/desk.hpp"
#include "server/documents.hpp"
#include "server/findings.hpp"
#include "server/folder_files.hpp"
#include "server/live_page.hpp"
#include "server/server.hpp"
#include "workspace/workspace.hpp"

namespace norma::server {

/// Why a request is not answered: a code of JSON-RPC or of the protocol.
struct Refusal {
  enum Code {
    parse_error = -32700,
    invalid_request = -32600,
    method_not_found = -32601,
    invalid_params = -32602,
    internal_error = -32603,
    not_initialized = -32002,
    cancelled = -32800,
  };
  Code code = internal_error;
  diag::Said why;
};
using Reply = std::variant<Out, Refusal>;

class State {
 public:
  State(Settings settings, std::function<void(const Out&)> send);

  /// Takes up one message.
  void take(Read message, const workspace::Cancel& cancel);
  /// Is there something to say that nobody has asked for?
  [[nodiscard]] bool has_work() const { return !stale_.empty(); }
  /// Says it of one document; nothing where it was called off, and then it is left to do.
  void work(const workspace::Cancel& cancel);
  /// How it ended; nothing while it goes on.
  [[nodiscard]] std::optional<int> ended() const { return ended_; }

  // For requests --------------------------------------------------------------------------------
  [[nodiscard]] Encoding encoding() const { return encoding_; }
  [[nodiscard]] const wording::Language& language() const { return *settings_.language; }
  [[nodiscard]] std::string text(const diag::Said& said) const { return language().text(said); }
  [[nodiscard]] Document* document(const std::string& uri) { return documents_.of_uri(uri); }
  [[nodiscard]] const Documents& documents() const { return documents_; }
  [[nodiscard]] workspace::Snapshot snapshot() const { return workspace_.snapshot(); }
  [[nodiscard]] const FolderFiles& files() const { return *files_; }
  /// What is asked of a document; kits that cannot be read are told, and left out.
  workspace::Ask ask_of(const Document& document);
  /// What was found in a document as it is now; nothing where that was called off.
  const std::vector<Told>* found_in(const Document& document, const workspace::Cancel& cancel);
  /// The address of a file, as its editor calls it where it is open.
  [[nodiscard]] std::string uri_of_file(const std::string& path) const;
  /// Edits by files, as the editor takes them.
  [[nodiscard]] Out workspace_edit(const std::vector<Edit>& edits) const;
  /// The last text of a document that could be parsed without a finding; null where none was.
  [[nodiscard]] std::shared_ptr<const Text> good_text(const Document& document) const;
  void keep_good(const Document& document) { good_[document.file] = document.text; }
  /// The kits to hold against, as a setting names them; null: all stays as it is.
  void set_kits(const In* kit);
  void ask_for_kit();
  void show(const diag::Said& said, bool error);
  // The picture of the protocol under work.
  [[nodiscard]] LivePage& page() { return page_; }
  void show_page_of(const Document& document);
  /// The editor is told what is on the page.
  void tell_page();
  /// What is on the page is looked at once more.
  void look_again();
  /// The editor opens this address, or shows it.
  void offer_address(const std::string& address);
  [[nodiscard]] workspace::Counters counters() const { return workspace_.counters(); }
  /// How often a document was looked at for what there is to say of it; for tests.
  [[nodiscard]] std::size_t looked_at() const { return looked_at_; }

 private:
  void answer(const std::optional<In>& id, Reply reply);
  void request(const Incoming& message, const workspace::Cancel& cancel);
  void notification(const Incoming& message);
  void guarded(const std::function<void()>& what);
  void answered(const Incoming& message);
  void ask(const std::string& method, Out params, const std::string& id);
  void notify(const std::string& method, Out params);

  Reply initialize(const In& params);
  void initialized();
  void ask_for_settings();
  void did_open(const In& params);
  void did_change(const In& params);
  void did_close(const In& params);
  void configure(const In* settings);
  void watched(const In& params);
  void folders_changed(const In& params);
  void open_folder(const std::string& path);

  void changed_text(const Document& document, const std::vector<std::string>& told);
  void make_stale(const std::string& file, bool first);
  void make_all_stale();
  void choose_kits(const std::vector<std::string>& kits);
  bool look_at(const Document& document, const workspace::Cancel& cancel);
  void forget_findings_in(const std::string& file);
  void publish(const std::string& file);
  [[nodiscard]] std::vector<std::string> kit_paths(const Document& document) const;

  Settings settings_;
  std::function<void(const Out&)> send_;
  std::shared_ptr<FolderFiles> files_;
  workspace::Workspace workspace_;
  Documents documents_;
  LivePage page_;
  std::vector<std::string> folders_; // as the editor names them
  std::vector<std::string> kits_;    // as they are set
  std::set<std::string> complained_; // kits that could not be read: told once
  Encoding encoding_ = Encoding::utf16;
  bool started_ = false;
  bool shut_down_ = false;
  std::optional<int> ended_;
  // What the editor can do.
  bool takes_versioned_edits_ = false;
  bool has_settings_ = false;
  bool watches_files_ = false;
  bool shows_documents_ = false;

  std::vector<std::string> stale_; // files, in the order in which they are looked at
  std::size_t looked_at_ = 0;
  /// By the document that was looked at, then by the files that findings stand in.
  std::map<std::string, std::map<std::string, std::vector<Told>>> found_;
  std::map<std::string, std::shared_ptr<const Text>> good_; // see good_text
  std::map<std::string, std::string> published_; // what the editor was told last, by files
};

/// The requests that there are: `params` to an answer. Null where there is none of that name.
using Handler = Reply (*)(State& state, const In& params, const workspace::Cancel& cancel);
Handler handler_of(const std::string& method);
/// What the server can do, as `initialize` answers.
Out capabilities(Encoding encoding, bool can_show_page);

Out json_of(const Told& told, const State& state);

} // namespace norma::server
