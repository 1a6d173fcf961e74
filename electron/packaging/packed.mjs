/**
 * What electron-builder is told: the packed program for Linux, Windows and macOS. Nothing is published, and the packed
 * program asks nobody for updates. Signing and updates: see "The desktop shell" in DEVELOPERS.md.
 */
import { fuses } from "./fuses.mjs";

const icon = "renderer/public/icons/throneside-512.png";

/** @type {import("electron-builder").Configuration} */
export const packed = {
  appId: "throneside.desktop",
  productName: "Throneside",
  copyright: "MIT licence",
  directories: { output: "dist/packed", buildResources: "electron/packaging" },
  // The bundles hold all they need: no package goes along.
  files: ["package.json", "dist/electron/**", "dist/renderer/**", "!node_modules/**"],
  extraResources: ["LICENSE", "NOTICE"],
  asar: true,
  npmRebuild: false,
  electronFuses: fuses,
  // No address to publish to, and so none that the packed program would look at for a newer one.
  publish: null,
  // Debian asks for both; there is no public address yet (RFC 2606 keeps ".invalid" for that).
  extraMetadata: { homepage: "https://throneside.invalid/" },
  linux: {
    // No AppImage: where the system allows no user namespaces its start script turns Chromium's sandbox off.
    target: ["deb", "tar.gz"],
    category: "Education",
    maintainer: "Throneside <desktop@throneside.invalid>",
    synopsis: "A second pair of ears for drum lessons on electronic kits",
    executableName: "throneside",
    executableArgs: [],
    icon,
  },
  win: { target: ["nsis"], icon },
  nsis: {
    oneClick: false,
    perMachine: false,
    allowToChangeInstallationDirectory: true,
    // The studio is the teacher's: uninstalling the program does not take it away.
    deleteAppDataOnUninstall: false,
  },
  mac: {
    target: ["dmg", "zip"],
    category: "public.app-category.education",
    icon,
    hardenedRuntime: true,
    entitlements: "electron/packaging/entitlements.mac.plist",
    entitlementsInherit: "electron/packaging/entitlements.mac.plist",
    extendInfo: {
      NSMicrophoneUsageDescription:
        "The microphone hears how late the sound of this computer is. Nothing is recorded.",
    },
  },
};
