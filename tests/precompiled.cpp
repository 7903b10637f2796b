// SPDX-License-Identifier: GPL-3.0-or-later
// Nothing of its own: the build makes the headers that all tests share (tests/CMakeLists.txt) for a source that uses
// them.
