// The language server as an editor meets it, over pipes: from an edit to its diagnostics, with kit
// and scene, of a protocol of five views and of one of 10,000; completion; memory of a folder of
// 2,000 protocols (as tree.cpp writes it), one of them open, and all.
#include <fcntl.h>
#include <fmt/core.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

using Clock = std::chrono::steady_clock;

double milliseconds_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n')
      out += "\\n";
    else
      out += c;
  }
  return out + "\"";
}

std::string text_of(const fs::path& path) {
  std::ostringstream out;
  out << std::ifstream(path).rdbuf();
  return out.str();
}

class Server {
 public:
  Server(const std::string& program, const fs::path& folder, const std::string& kit) {
    int in[2];
    int out[2];
    if (::pipe(in) != 0 || ::pipe(out) != 0) std::exit(1);
    child_ = ::fork();
    if (child_ == 0) {
      ::dup2(in[0], 0);
      ::dup2(out[1], 1);
      for (const int end : {in[0], in[1], out[0], out[1]})
        ::close(end);
      ::execl(program.c_str(), "norma", "serve", "--on", "2026-11-25", nullptr);
      ::_exit(127);
    }
    ::close(in[0]);
    ::close(out[1]);
    in_ = in[1];
    out_ = out[0];
    ask("initialize", fmt::format(R"({{"rootUri":"file://{}","capabilities":{{}},)"
                                  R"("initializationOptions":{{"kit":{}}}}})",
                                  folder.string(), quoted(kit)));
  }
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  ~Server() {
    ask("shutdown", "null");
    tell("exit", "null");
    ::close(in_);
    ::waitpid(child_, nullptr, 0);
    ::close(out_);
  }

  void tell(const std::string& method, const std::string& params) {
    send(fmt::format(R"({{"jsonrpc":"2.0","method":"{}","params":{}}})", method, params));
  }
  /// The answer.
  std::string ask(const std::string& method, const std::string& params) {
    const int id = ++asked_;
    send(fmt::format(R"({{"jsonrpc":"2.0","id":{},"method":"{}","params":{}}})", id, method,
                     params));
    return wait(fmt::format(R"("id":{},"result")", id));
  }
  void open(const fs::path& file, const std::string& text) {
    tell("textDocument/didOpen",
         fmt::format(R"({{"textDocument":{{"uri":"file://{}","languageId":"norma","version":1,)"
                     R"("text":{}}}}})",
                     file.string(), quoted(text)));
  }
  void wait_for_findings(const fs::path& file, int version) {
    wait(fmt::format(R"("params":{{"uri":"file://{}","version":{},)", file.string(), version));
  }
  /// Puts `text` in place of a stretch of one line; milliseconds until its findings are there.
  double edit(const fs::path& file, int version, std::size_t line, std::size_t from, std::size_t to,
              const std::string& text) {
    const auto start = Clock::now();
    tell("textDocument/didChange",
         fmt::format(R"({{"textDocument":{{"uri":"file://{0}","version":{1}}},"contentChanges":[)"
                     R"({{"range":{{"start":{{"line":{2},"character":{3}}},)"
                     R"("end":{{"line":{2},"character":{4}}}}},"text":"{5}"}}]}})",
                     file.string(), version, line, from, to, text));
    wait_for_findings(file, version);
    return milliseconds_since(start);
  }
  double complete(const fs::path& file, std::size_t line, std::size_t character) {
    const auto start = Clock::now();
    const std::string answer =
        ask("textDocument/completion", fmt::format(R"({{"textDocument":{{"uri":"file://{}"}},)"
                                                   R"("position":{{"line":{},"character":{}}}}})",
                                                   file.string(), line, character));
    if (answer.find("\"label\"") == std::string::npos) {
      fmt::print("nothing to complete\n");
      std::exit(1);
    }
    return milliseconds_since(start);
  }
  /// Of its memory, what is in use now, and the most that was (proc(5)).
  [[nodiscard]] std::pair<double, double> megabytes() const {
    std::ifstream status(fmt::format("/proc/{}/status", child_));
    double now = 0;
    double most = 0;
    for (std::string line; std::getline(status, line);) {
      if (line.starts_with("VmRSS:")) now = std::stod(line.substr(6)) / 1024;
      if (line.starts_with("VmHWM:")) most = std::stod(line.substr(6)) / 1024;
    }
    return {now, most};
  }

 private:
  void send(const std::string& body) {
    const std::string all = fmt::format("Content-Length: {}\r\n\r\n{}", body.size(), body);
    std::string_view left = all;
    while (!left.empty()) {
      const ssize_t sent = ::write(in_, left.data(), left.size());
      if (sent <= 0) std::exit(1);
      left.remove_prefix(static_cast<std::size_t>(sent));
    }
  }
  std::string message() {
    while (true) {
      const std::size_t end = room_.find("\r\n\r\n");
      if (end != std::string::npos) {
        const std::size_t size = std::stoul(room_.substr(room_.find(':') + 1));
        if (room_.size() >= end + 4 + size) {
          std::string out = room_.substr(end + 4, size);
          room_.erase(0, end + 4 + size);
          return out;
        }
      }
      char piece[65536];
      const ssize_t got = ::read(out_, piece, sizeof piece);
      if (got <= 0) {
        fmt::print("the server has ended\n");
        std::exit(1);
      }
      room_.append(piece, static_cast<std::size_t>(got));
    }
  }
  std::string wait(const std::string& with) {
    while (true) {
      std::string next = message();
      if (next.find(with) != std::string::npos) return next;
    }
  }

  pid_t child_ = -1;
  int in_ = -1;
  int out_ = -1;
  int asked_ = 0;
  std::string room_;
};

/// Line and character of a place.
std::pair<std::size_t, std::size_t> place(const std::string& text, std::size_t at) {
  const std::size_t begin = text.rfind('\n', at) + 1;
  return {static_cast<std::size_t>(
              std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')),
          at - begin};
}

std::string told(std::vector<double> all) {
  std::sort(all.begin(), all.end());
  return fmt::format("median {:.1f} ms, slowest {:.1f} ms", all[all.size() / 2], all.back());
}

/// Other views each, as a protocol of that size may have.
std::string large(int views) {
  std::string out =
      "norma 1\n\nprotocol large \"Large\" {\n  for     adults\n  sensor  36 x 24 mm\n"
      "  every mouth view {\n    iso      200\n    shutter  1/125 s\n"
      "    retractor both tension even, held by patient\n  }\n";
  for (int i = 0; i < views; ++i) {
    out +=
        fmt::format("  view v{0} \"View {0}\" {{\n    ratio      1:{1}.{2}\n    aperture   f/22\n"
                    "    teeth      together\n    camera     from right {3}.{4} deg from midline\n"
                    "    centre on  14\n    focus on   14\n    must show  facial 12 to 15\n  }}\n",
                    i, 2 + i % 3, i / 3 % 100, 30 + i / 300 % 30, i / 9000);
  }
  return out + "}\n";
}

void measure(Server& server, const fs::path& file, const std::string& text, std::string_view what,
             int rounds) {
  auto start = Clock::now();
  server.open(file, text);
  server.wait_for_findings(file, 1);
  const double first = milliseconds_since(start);
  // An angle of one view, each time another; then the word of its line is completed.
  const std::size_t half = text.find(" deg from midline", text.size() / 2);
  const std::size_t end = half != std::string::npos ? half : text.find(" deg from midline");
  const std::size_t begin = text.rfind(' ', end - 1) + 1;
  const auto [line, character] = place(text, begin);
  const std::size_t line_begin = text.rfind('\n', begin) + 1;
  const std::size_t word = text.find_first_not_of(' ', line_begin) - line_begin;
  std::size_t length = end - begin;
  std::vector<double> edits;
  std::vector<double> completions;
  for (int i = 0; i < rounds; ++i) {
    const std::string angle = fmt::format("{}.{}", 50 + i / 10, i % 10 + 1);
    edits.push_back(server.edit(file, i + 2, line, character, character + length, angle));
    length = angle.size();
    completions.push_back(server.complete(file, line, word));
  }
  const auto [now, most] = server.megabytes();
  fmt::print("  {}: at first {:.0f} ms; edit to diagnostics {}; completion {}; {:.0f} MB, at most "
             "{:.0f}\n",
             what, first, told(edits), told(completions), now, most);
}

} // namespace

int main(int count, char** arguments) {
  if (count != 5) {
    fmt::print("usage: norma_serve NORMA KIT FIVE.norma FOLDER\n");
    return 2;
  }
  const std::string norma = fs::absolute(arguments[1]);
  const fs::path tree = fs::absolute(arguments[4]);
  const fs::path folder = tree.parent_path() / "served";
  fs::create_directories(folder);
  const std::string kit = "kit.yaml";
  for (const fs::path& in : {folder, tree})
    fs::copy_file(arguments[2], in / kit, fs::copy_options::overwrite_existing);
  {
    Server server(norma, folder, kit);
    measure(server, folder / "five.norma", text_of(arguments[3]), "five views", 51);
  }
  {
    Server server(norma, folder, kit);
    measure(server, folder / "large.norma", large(10000), "10,000 views, one edited", 11);
  }
  Server server(norma, tree, kit);
  std::vector<fs::path> all;
  for (const auto& entry : fs::directory_iterator(tree)) {
    if (entry.path().extension() == ".norma") all.push_back(entry.path());
  }
  std::sort(all.begin(), all.end());
  const auto start = Clock::now();
  for (std::size_t i = 0; i < all.size(); ++i) {
    server.open(all[i], text_of(all[i]));
    server.wait_for_findings(all[i], 1);
    if (i != 0 && i + 1 != all.size()) continue;
    const auto [now, most] = server.megabytes();
    fmt::print("  a folder of {} protocols, {} open: {:.0f} MB, at most {:.0f} ({:.1f} s)\n",
               all.size(), i + 1, now, most, milliseconds_since(start) / 1000);
  }
}
