/**
 * The project as the rest of the house sees it: files, settings, discovery, and the workspace that keeps a project open.
 */
export { ALL_CODES } from "./codes";
export { decodeText } from "./decode";
export { type Discovery, discover, type NamedProject, type NameProblem } from "./discover";
export { diskFiles } from "./disk";
export * from "./files";
export { type MemoryEntry, type MemoryFiles, memoryFiles } from "./memory";
export { absolutePath, joinPath, nameOf, parentOf, relativePath, shownPath, within } from "./paths";
export { createResolve } from "./resolve";
export { findRoot, loadSettings } from "./root";
export {
  DEFAULT_SETTINGS,
  readSettings,
  SETTINGS_FILE,
  type Settings,
  type SettingsProblem,
} from "./settings";
export { ENDING, type PathProblem, walkFolder } from "./tree-walk";
export { createWorkspace, type ReadProblem, type Workspace } from "./workspace";
