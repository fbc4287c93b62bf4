// Starts `norma serve` for protocols and kits, and offers the kit and the picture.
import * as vscode from "vscode";
import { LanguageClient, type LanguageClientOptions, type ServerOptions } from "vscode-languageclient/node";
import { Picture } from "./picture";

let client: LanguageClient | undefined;

/** The kits of a folder: YAML that says so. */
async function kitsIn(folder: vscode.WorkspaceFolder): Promise<string[]> {
  const most = 2000;
  const files = await vscode.workspace.findFiles(
    new vscode.RelativePattern(folder, "**/*.{yaml,yml}"), "**/node_modules/**", most);
  const kits: string[] = [];
  for (const file of files) {
    const text = Buffer.from(await vscode.workspace.fs.readFile(file)).toString("utf8");
    if (/^norma kit:/m.test(text)) kits.push(vscode.workspace.asRelativePath(file, false));
  }
  return kits.sort();
}

/** The folder of what is edited; else the first one. */
function folderNow(): vscode.WorkspaceFolder | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return (document && vscode.workspace.getWorkspaceFolder(document.uri)) ?? vscode.workspace.workspaceFolders?.[0];
}

/** Asks for the kit and keeps it in the settings of the folder; the server takes it from there. */
async function pickKit(): Promise<void> {
  const folder = folderNow();
  if (!folder) {
    void vscode.window.showInformationMessage("Open the folder that holds your protocols and kits first.");
    return;
  }
  const none = "No kit";
  const kits = await kitsIn(folder);
  if (kits.length === 0) {
    void vscode.window.showInformationMessage("There is no kit in this folder: a YAML file that starts with `norma kit: 1`.");
    return;
  }
  const chosen = await vscode.window.showQuickPick([...kits, none], { placeHolder: "Which kit are protocols held against?" });
  if (chosen === undefined) return;
  await vscode.workspace.getConfiguration("norma", folder.uri)
    .update("kit", chosen === none ? "" : chosen, vscode.ConfigurationTarget.WorkspaceFolder);
}

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const settings = vscode.workspace.getConfiguration("norma", folderNow()?.uri);
  const server: ServerOptions = {
    command: settings.get<string>("program", "norma"),
    args: ["serve", "--language", settings.get<string>("language", "en")],
  };
  const options: LanguageClientOptions = {
    documentSelector: [{ scheme: "file", language: "norma" }, { scheme: "file", language: "yaml" }],
    initializationOptions: { norma: { kit: settings.get("kit", "") } },
  };
  client = new LanguageClient("norma", "norma", server, options);
  const picture = new Picture(client);
  context.subscriptions.push(
    picture,
    vscode.commands.registerCommand("norma.pickKit", pickKit),
    vscode.commands.registerCommand("norma.picture", () => picture.show()),
    vscode.workspace.onDidChangeConfiguration((event) => {
      const folder = folderNow()?.uri;
      if (!event.affectsConfiguration("norma.kit", folder)) return;
      const kit = vscode.workspace.getConfiguration("norma", folder).get("kit", "");
      void client?.sendNotification("workspace/didChangeConfiguration", { settings: { norma: { kit } } });
    }),
  );
  try {
    await client.start();
  } catch {
    void vscode.window.showErrorMessage(
      `norma does not start (${server.command}): install it, or name the program in the setting norma.program.`);
  }
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
