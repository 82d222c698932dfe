/** Starts and stops code-server: a real VS Code with folders of its own, an extension installed, on a free port. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";

/** A running code-server. */
export interface Server {
  /** Where it is served, as `http://127.0.0.1:PORT`. */
  readonly origin: string;
  readonly stop: () => Promise<void>;
}

export interface Options {
  /** The script that starts code-server. */
  readonly entry: string;
  /** Extension packages to install. */
  readonly vsix: readonly string[];
  /** Whether folders are trusted without asking; false leaves them all in restricted mode. */
  readonly trusting: boolean;
}

const SETTINGS = {
  // The colours follow the browser, so that a test can ask for light or dark.
  "window.autoDetectColorScheme": true,
  "files.hotExit": "off",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "editor.minimap.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "security.workspace.trust.startupPrompt": "never",
  "security.workspace.trust.banner": "never",
  "telemetry.telemetryLevel": "off",
  "extensions.ignoreRecommendations": true,
  "git.openRepositoryInParentFolders": "never",
  // A list that comes up by itself while a test types would take its Enter.
  "editor.quickSuggestions": { other: "off", comments: "off", strings: "off" },
  "editor.suggestOnTriggerCharacters": false,
  "editor.autoIndent": "none",
  "editor.inlayHints.enabled": "on",
};

// The group ends when whoever started it closes the pipe, which the system does for one that was killed.
const UNTIL_CLOSED = '{ "$@" </dev/null; kill -TERM 0; } & read -r _; kill -TERM 0';

/**
 * Starts a code-server.
 *
 * @throws when the extension cannot be installed or the server does not come up; the message holds what it wrote
 */
export async function startServer({ entry, vsix, trusting }: Options): Promise<Server> {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "torquil-vscode-")));
  const data = join(folder, "data");
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User/settings.json"), JSON.stringify(SETTINGS));
  writeFileSync(join(folder, "config.yaml"), "");
  const common = ["--user-data-dir", data, "--extensions-dir", join(folder, "extensions")];
  common.push("--config", join(folder, "config.yaml"));
  for (const file of vsix) {
    const words = [entry, ...common, "--install-extension", file];
    const done = spawnSync(process.execPath, words, { encoding: "utf8", timeout: 60_000 });
    if (done.status !== 0) throw new Error(`${file} could not be installed:\n${done.stdout}${done.stderr}`);
  }
  const words = [entry, ...common, "--auth", "none", "--bind-addr", "127.0.0.1:0"];
  words.push("--disable-telemetry", "--disable-update-check", "--disable-getting-started-override");
  if (trusting) words.push("--disable-workspace-trust");
  const child = spawn("sh", ["-c", UNTIL_CLOSED, "sh", process.execPath, ...words], {
    detached: true,
    env: { ...process.env, LC_ALL: "C.UTF-8", GIT_CONFIG_GLOBAL: "/dev/null" },
  });
  const stop = async (): Promise<void> => {
    await endGroup(child);
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    return { origin: await listening(child), stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

function listening(child: ChildProcess): Promise<string> {
  let written = "";
  return new Promise((done, fail) => {
    const late = setTimeout(() => fail(new Error(`code-server did not come up:\n${written}`)), 60_000);
    for (const stream of [child.stdout, child.stderr])
      stream?.on("data", (data) => {
        written += String(data);
        const origin = /listening on (http:\/\/127\.0\.0\.1:\d+)/.exec(written)?.[1];
        if (!origin) return;
        clearTimeout(late);
        done(origin);
      });
    child.on("exit", () => fail(new Error(`code-server ended:\n${written}`)));
  });
}

/** Ends a process and every process it started. */
async function endGroup(child: ChildProcess): Promise<void> {
  const group = child.pid;
  if (group === undefined) return;
  child.stdin?.end();
  for (let tries = 0; tries < 50 && alive(group); tries++) await sleep(100);
  if (alive(group)) process.kill(-group, "SIGKILL");
}

function alive(group: number): boolean {
  try {
    process.kill(-group, 0);
    return true;
  } catch {
    return false;
  }
}
