#!/usr/bin/env bash
# Installs the Debian packages named in the given lists that are not there yet. Asks for root only if something is missing.
#   packaging/install-packages.sh packaging/packages-build.txt ...
set -euo pipefail

missing=()
for list in "$@"; do
  while read -r package; do
    # A command that is there counts as its package: npm may come from elsewhere.
    [[ $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) == "install ok installed" ]] && continue
    command -v "$package" >/dev/null 2>&1 && continue
    missing+=("$package")
  done < <(sed -e 's/#.*//' -e '/^[[:space:]]*$/d' "$list")
done
((${#missing[@]})) || exit 0

echo "Installing: ${missing[*]}"
root=()
if ((EUID != 0)); then
  command -v sudo >/dev/null || { echo "These packages are missing and there is no sudo; as root: apt-get install ${missing[*]}" >&2; exit 1; }
  root=(sudo)
fi
"${root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
