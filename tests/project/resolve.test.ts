/** Where a path in a file leads: within the project only, and the same on every system. */
import { expect, test } from "vitest";
import { memoryFiles } from "../../server/project/memory";
import { createResolve } from "../../server/project/resolve";

const files = memoryFiles({
  "/p/jobs/a.torquil": "",
  "/p/machines/m.torquil": "",
  "/p/machines/in.torquil": { link: "m.torquil" },
  "/p/machines/out.torquil": { link: "../../secret.torquil" },
  "/p/outside": { link: "/else" },
  "/p/loop.torquil": { link: "loop.torquil" },
  "/secret.torquil": "",
  "/else/e.torquil": "",
  "/p2/x.torquil": "",
});
const resolve = createResolve(files, "/p", (file) => file === "jobs/unsaved.torquil");
const from = (path: string) => resolve("jobs/a.torquil", path);

test("a path leads from the file's folder, to where the file really lies", () => {
  expect(from("../machines/m.torquil")).toEqual({ file: "machines/m.torquil" });
  expect(from("./a.torquil")).toEqual({ file: "jobs/a.torquil" });
  expect(from("../machines/in.torquil")).toEqual({ file: "machines/m.torquil" });
  expect(from("unsaved.torquil")).toEqual({ file: "jobs/unsaved.torquil" });
});

test("nothing leads outside, by dots, from the top, by drive or by link", () => {
  const ways = [
    "../../secret.torquil",
    "/p/machines/m.torquil",
    "/secret.torquil",
    "C:/x.torquil",
    "c:x.torquil",
    "../../p2/x.torquil",
    "../machines/out.torquil",
    "../outside/e.torquil",
  ];
  for (const path of ways) expect([path, from(path)]).toEqual([path, { problem: "outside" }]);
});

test("what is not there is missing, also by a path that only one system could read", () => {
  for (const path of [
    "m.torquil",
    "",
    "..\\machines\\m.torquil",
    "a\0.torquil",
    "../machines/none/m.torquil",
  ])
    expect([path, from(path)]).toEqual([path, { problem: "missing" }]);
});

test("a folder and a link in a loop cannot be read", () => {
  expect(from("../machines")).toEqual({ problem: "unreadable" });
  expect(from("..")).toEqual({ problem: "unreadable" });
  expect(from("../loop.torquil")).toEqual({ problem: "unreadable" });
});
