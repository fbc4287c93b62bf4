// The picture in a panel beside the text: the server's own page, fed by the server. No address, no
// network.
import * as vscode from "vscode";
import type { LanguageClient } from "vscode-languageclient/node";

/** What the page posts. */
interface FromPage {
  ready?: boolean;
  view?: number;
}

export class Picture implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private state: unknown;
  private readonly held: vscode.Disposable[] = [];

  constructor(private readonly client: LanguageClient) {
    this.held.push(
      client.onNotification("norma/state", (told: { state: unknown }) => {
        this.state = told.state;
        void this.panel?.webview.postMessage({ state: told.state });
      }),
      vscode.window.onDidChangeActiveTextEditor((editor) => {
        if (this.panel && editor?.document.languageId === "norma") void this.pageOf(editor.document);
      }),
    );
  }

  async show(): Promise<void> {
    if (this.panel) {
      this.panel.reveal(undefined, true);
      return;
    }
    const document = vscode.window.activeTextEditor?.document;
    const page = await this.pageOf(document?.languageId === "norma" ? document : undefined);
    const panel = vscode.window.createWebviewPanel(
      "norma.picture", "norma", { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, retainContextWhenHidden: true, localResourceRoots: [] });
    this.panel = panel;
    panel.onDidDispose(() => { this.panel = undefined; });
    panel.webview.onDidReceiveMessage((message: FromPage) => this.answer(panel, message));
    panel.webview.html = page;
  }

  private async answer(panel: vscode.WebviewPanel, message: FromPage): Promise<void> {
    if (message.ready && this.state) await panel.webview.postMessage({ state: this.state });
    if (typeof message.view !== "number") return;
    const view = await this.client.sendRequest<unknown>("norma/view", { view: message.view });
    if (view) await panel.webview.postMessage({ view });
  }

  /** The page, from now on of that document. */
  private async pageOf(document: vscode.TextDocument | undefined): Promise<string> {
    const about = document ? { textDocument: { uri: document.uri.toString() } } : {};
    return (await this.client.sendRequest<{ html: string }>("norma/page", about)).html;
  }

  dispose(): void {
    for (const one of this.held) one.dispose();
    this.panel?.dispose();
  }
}
