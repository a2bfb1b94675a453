# SPDX-License-Identifier: MIT
# What the reports bring along: the drills, and the shared page with its module. The module is built
# of floors 0 to 5 by clang for WebAssembly where that is found; without it the program is whole but
# for `plumbar share`, which then says what to install.
set(PAGE_DIR ${CMAKE_CURRENT_SOURCE_DIR}/src/report/page)
set(WASM_DIR ${CMAKE_CURRENT_BINARY_DIR}/wasm)
set(WASM_MODULE ${WASM_DIR}/page.wasm)
find_program(WASM_CLANG clang)
find_program(WASM_LD NAMES wasm-ld wasm-ld-14)
find_path(WASM_CGLM cglm/cglm.h)
file(GLOB WASM_BUILTINS /usr/lib/llvm-*/lib/clang/*/lib/wasi/libclang_rt.builtins-wasm32.a)
list(SORT WASM_BUILTINS)
list(POP_FRONT WASM_BUILTINS WASM_BUILTIN)
set(WASM_LIBC /usr/lib/wasm32-wasi)
set(PLUMB_PAGE_MODULE "" CACHE FILEPATH "the page's module, of the same sources, from another build")
set(PLUMB_HAS_PAGE OFF)
if(PLUMB_PAGE_MODULE OR
    (WASM_CLANG AND WASM_LD AND WASM_BUILTIN AND EXISTS ${WASM_LIBC}/libc.a))
    set(PLUMB_HAS_PAGE ON)
else()
    message(STATUS "left out: the shared page (needs clang, lld, wasi-libc, libclang-rt-dev-wasm32)")
endif()

# The advances of the typeface, for measuring text where cairo is not.
set(ADVANCES ${TABLES_DIR}/advances.c)
add_executable(embed_advances src/report/page/embed_advances.c)
target_link_libraries(embed_advances PRIVATE plumb_draw)
add_custom_command(OUTPUT ${ADVANCES} COMMAND embed_advances ${ADVANCES} DEPENDS embed_advances
    COMMENT "Measuring the typeface")

set(EMBEDS drills=${CMAKE_CURRENT_SOURCE_DIR}/anthropometry/drills.csv page=${PAGE_DIR}/page.html
    style=${PAGE_DIR}/page.css script=${PAGE_DIR}/page.js)
set(EMBED_FILES anthropometry/drills.csv ${PAGE_DIR}/page.html ${PAGE_DIR}/page.css
    ${PAGE_DIR}/page.js)

if(PLUMB_PAGE_MODULE)
    set(WASM_MODULE ${PLUMB_PAGE_MODULE})
elseif(PLUMB_HAS_PAGE)
    # cglm is headers alone, but the rest of its folder is not for this target.
    file(MAKE_DIRECTORY ${WASM_DIR}/include)
    file(CREATE_LINK ${WASM_CGLM}/cglm ${WASM_DIR}/include/cglm SYMBOLIC)
    file(GLOB WASM_SOURCES CONFIGURE_DEPENDS src/base/*.c src/body/*.c src/model/*.c src/solve/*.c
        src/study/*.c src/scene/*.c ${PAGE_DIR}/page.c ${PAGE_DIR}/rulers.c)
    list(APPEND WASM_SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/src/draw/svg.c
        ${CMAKE_CURRENT_SOURCE_DIR}/src/draw/buffer.c ${CMAKE_CURRENT_SOURCE_DIR}/src/report/pack.c
        ${CMAKE_CURRENT_SOURCE_DIR}/src/report/solved_drawing.c
        ${CMAKE_CURRENT_SOURCE_DIR}/src/report/advance.c ${TABLES_DIR}/tables.c
        ${TABLES_DIR}/settings.c ${ADVANCES})
    set(WASM_OBJECTS "")
    foreach(source ${WASM_SOURCES})
        file(RELATIVE_PATH name ${CMAKE_CURRENT_SOURCE_DIR} ${source})
        string(REGEX REPLACE "[^A-Za-z0-9]" "_" name ${name})
        set(object ${WASM_DIR}/${name}.o)
        add_custom_command(OUTPUT ${object}
            COMMAND ${WASM_CLANG} --target=wasm32-wasi -std=c17 -O2 -DNDEBUG -ffp-contract=off
                -MD -MF ${object}.d -isystem ${WASM_DIR}/include
                -I${CMAKE_CURRENT_SOURCE_DIR}/include -I${CMAKE_CURRENT_SOURCE_DIR}/src
                -I${TABLES_DIR} -c ${source} -o ${object}
            DEPENDS ${source} ${TABLES_DIR}/tables.h ${TABLES_DIR}/settings.h
            DEPFILE ${object}.d COMMENT "" VERBATIM)
        list(APPEND WASM_OBJECTS ${object})
    endforeach()
    add_custom_command(OUTPUT ${WASM_MODULE}
        COMMAND ${WASM_LD} --no-entry --strip-all --gc-sections -z stack-size=1048576
            ${WASM_OBJECTS} -L${WASM_LIBC} -lm -lc ${WASM_BUILTIN} -o ${WASM_MODULE}
        DEPENDS ${WASM_OBJECTS} COMMENT "Linking the page's module" VERBATIM)
endif()
if(PLUMB_HAS_PAGE)
    list(APPEND EMBEDS module%=${WASM_MODULE})
    list(APPEND EMBED_FILES ${WASM_MODULE})
else()
    list(APPEND EMBEDS module=/dev/null)
endif()

set(EMBEDDED ${TABLES_DIR}/embedded.c)
add_executable(embed_bytes src/report/page/embed_bytes.c)
find_package(ZLIB REQUIRED)
target_link_libraries(embed_bytes PRIVATE plumb_flags ZLIB::ZLIB)
add_custom_command(OUTPUT ${EMBEDDED} COMMAND embed_bytes ${EMBEDDED} ${EMBEDS}
    DEPENDS embed_bytes ${EMBED_FILES} COMMENT "Embedding what the reports bring along" VERBATIM)
