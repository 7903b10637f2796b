# SPDX-License-Identifier: GPL-3.0-or-later
# The Debian package of the program, its verifier and its tooling: cpack -G DEB in a build folder. What it depends on is read from
# the program (dpkg-shlibdeps, package dpkg-dev). Headers and libraries of the floors stay out of it.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME tinwright)
set(CPACK_PACKAGE_CONTACT "tinwright maintainers <maintainers@tinwright.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "plans how to fold sheet-metal parts on the brakes of a shop")
set(CPACK_PACKAGE_DESCRIPTION "From a part and the shop's brakes, bars, punches and dies tinwright finds an order of folds that works,
the tools for each fold, the flat blank and the bench sheet, or says why there is none.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_VERBATIM_VARIABLES ON)
include(CPack)
