# The rooms of the house and every edge between them, listed once. From this list come the link lines, and
# build/<preset>/rooms.txt, from which tools/check_includes.py checks every #include.
find_package(Eigen3 REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(SQLiteCpp REQUIRED)
find_package(OpenSSL REQUIRED)
find_package(Boost 1.74 REQUIRED)
find_package(ZLIB REQUIRED)
find_package(Threads REQUIRED)
find_library(QRENCODE qrencode REQUIRED)

set(ROOMS_TXT "")

# fallaway_room(path USES rooms... LIBS libraries...): src/<path>/*.cpp as one static library.
function(fallaway_room path)
  cmake_parse_arguments(ROOM "" "" "USES;LIBS;SOURCES" ${ARGN})
  string(REPLACE "/" "_" name ${path})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/${path}/*.cpp)
  add_library(room_${name} STATIC ${sources} ${ROOM_SOURCES})
  target_include_directories(room_${name} PUBLIC ${CMAKE_SOURCE_DIR}/src)
  target_link_libraries(room_${name} PRIVATE fallaway_flags)
  fallaway_precompile(room_${name})
  foreach(used ${ROOM_USES})
    string(REPLACE "/" "_" used_name ${used})
    target_link_libraries(room_${name} PUBLIC room_${used_name})
  endforeach()
  target_link_libraries(room_${name} PRIVATE ${ROOM_LIBS})
  string(JOIN " " line ${path} ":" ${ROOM_USES})
  set(ROOMS_TXT "${ROOMS_TXT}${line}\n" PARENT_SCOPE)
endfunction()

fallaway_room(science/base)
fallaway_room(science/numeric USES science/base LIBS Eigen3::Eigen)
fallaway_room(science/metrology USES science/base science/numeric)
fallaway_room(science/strings USES science/base science/numeric)
fallaway_room(science/neck USES science/base science/numeric science/metrology science/strings)
fallaway_room(bench/evidence USES science/base science/metrology science/strings)
fallaway_room(bench/model USES science/base science/numeric science/metrology science/strings science/neck bench/evidence)
fallaway_room(bench/judgement USES science/base science/metrology bench/evidence bench/model)
fallaway_room(bench/report USES science/base science/metrology science/strings bench/evidence bench/model bench/judgement)
fallaway_room(bench/sums USES science/base science/numeric science/metrology science/strings science/neck)
fallaway_room(shop/files USES science/base science/metrology science/strings bench/evidence bench/judgement bench/sums
  LIBS nlohmann_json::nlohmann_json OpenSSL::Crypto)
fallaway_room(shop/store USES science/base shop/files LIBS SQLiteCpp)
fallaway_room(shop/net USES science/base shop/files
  LIBS Boost::headers OpenSSL::SSL OpenSSL::Crypto ZLIB::ZLIB Threads::Threads ${QRENCODE})
fallaway_room(shop/app USES science/base science/metrology bench/evidence bench/judgement bench/report bench/sums
  shop/files shop/store)
fallaway_room(shop/serve USES science/base bench/evidence bench/judgement bench/report bench/sums shop/files shop/store
  shop/app shop/net)

# The tables of records are long and run once a file, the network waits for the network, the command line runs once:
# optimising them hard buys nothing and takes minutes.
set(lightly $<$<AND:$<COMPILE_LANGUAGE:CXX>,$<CONFIG:Release>>:-O1>)
target_compile_options(room_shop_files PRIVATE ${lightly})
target_compile_options(room_shop_net PRIVATE ${lightly})
fallaway_embed(room_shop_files data demo)
fallaway_page(room_shop_serve)

file(GLOB cli_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/shop/cli/*.cpp)
add_executable(fallaway ${cli_sources})
target_compile_definitions(fallaway PRIVATE FALLAWAY_VERSION="${PROJECT_VERSION}")
target_link_libraries(fallaway PRIVATE fallaway_flags room_shop_app room_shop_serve CLI11::CLI11)
target_compile_options(fallaway PRIVATE ${lightly})
# Every command reads the header of the command line, which is large and makes much code: compiled once, together.
set_target_properties(fallaway PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 0)
fallaway_precompile(fallaway)
string(APPEND ROOMS_TXT "shop/cli : science/base bench/evidence bench/judgement bench/report bench/sums shop/files shop/store shop/app shop/net shop/serve\n")

file(WRITE ${CMAKE_BINARY_DIR}/rooms.txt "${ROOMS_TXT}")
