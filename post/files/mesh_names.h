/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of the meshes in an output folder. */
#ifndef NECKHEW_FILES_MESH_NAMES_H
#define NECKHEW_FILES_MESH_NAMES_H

#define MESH_FINISHED_FILE "finished.stl"
#define MESH_ROUGHED_FILE "roughed.stl"
#define MESH_BLANK_FILE "blank.stl"

#endif
