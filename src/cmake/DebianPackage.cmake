# `cpack` in the build folder makes graftcast_VERSION_ARCHITECTURE.deb: the program with its models, manual
# pages, completions and the sample site. Headers and static libraries stay out.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME graftcast)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "weather-aware care of fresh fruit-tree grafts")
set(CPACK_PACKAGE_DESCRIPTION "Reads a weather log and a forecast, works out how hot and how dry it gets at each graft,
carries the healing and the water of every union hour by hour, and tells each morning
which grafts need shade, a bag, air or water, by when, and why.")
# Who makes the package answers for it. The top-level domain "invalid" is reserved (RFC 2606), so no mail goes astray.
set(GRAFTCAST_PACKAGE_MAINTAINER "graftcast developers <packages@graftcast.invalid>" CACHE STRING
    "Name and address in the Debian package")
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "${GRAFTCAST_PACKAGE_MAINTAINER}")
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_DEPENDS tzdata)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_COMPONENTS_ALL Unspecified)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
include(CPack)
