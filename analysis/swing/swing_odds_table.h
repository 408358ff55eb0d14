#pragma once

#include <array>
#include <span>

#include "analysis/swing/swing_signs.h"

// Made by tests/bench/swing_odds/fit.py, which says of what and how; docs/formulas.md, F22. Not to be changed
// by hand.

namespace footing {

struct OddsPoint {
    double value;
    double log_odds;
};

inline constexpr std::array<OddsPoint, 8> odds_by_return_share{{{0, 0.00},
                                                                {0.0278, 0.15},
                                                                {0.0393, 0.30},
                                                                {0.1363, 0.00},
                                                                {0.1953, 0.04},
                                                                {0.3086, 0.25},
                                                                {0.5361, 0.22},
                                                                {0.9439, -0.14}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {0.9444, -0.07},
                                                                   {1.241, -0.19},
                                                                   {4.608, -0.38},
                                                                   {6.671, -0.39},
                                                                   {12.28, -0.48},
                                                                   {28.79, -0.66},
                                                                   {30.07, -0.79}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.11, 0.01},
                                                            {0.168, 0.34},
                                                            {0.23, 0.80},
                                                            {0.29, 0.96},
                                                            {0.39, 0.89},
                                                            {0.592, 0.91},
                                                            {0.6, 0.79}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0, 0.00},
                                                           {0.09, -0.37},
                                                           {0.112, -0.29},
                                                           {0.18, 0.32},
                                                           {0.21, 0.42},
                                                           {0.248, 0.28},
                                                           {0.504, -0.12},
                                                           {0.57, -0.18}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0056, 0.00},
                                                         {0.1636, 0.63},
                                                         {0.184, 0.93},
                                                         {0.4562, 1.79},
                                                         {0.7291, 2.71},
                                                         {1.241, 2.90},
                                                         {2.97, 2.04},
                                                         {5.225, 1.56}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0006, 0.00},
                                                        {0.0087, -0.12},
                                                        {0.0312, -0.18},
                                                        {0.0367, 0.08},
                                                        {0.1033, 0.49},
                                                        {0.1863, 0.29},
                                                        {0.3057, 0.63},
                                                        {0.4393, 0.64}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0302, 0.00},
                                                                 {0.3869, -0.11},
                                                                 {1.355, 0.34},
                                                                 {1.472, 0.69},
                                                                 {5.219, 0.93},
                                                                 {9.68, 1.06},
                                                                 {16.56, 1.10},
                                                                 {25.5, 1.19}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.1, -0.54},
                                                          {0.11, -0.22},
                                                          {0.13, -0.08},
                                                          {0.15, -0.52},
                                                          {0.176, -1.23},
                                                          {0.2, -2.17},
                                                          {0.48, -2.63}}};
inline constexpr std::array<OddsPoint, 6> odds_by_impulse_left{
    {{0, 0.00}, {0.0386, 0.90}, {0.2464, 1.28}, {0.2881, 1.60}, {0.5886, 1.20}, {0.999, 0.57}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0105, 0.00},
                                                                {0.0243, -0.17},
                                                                {0.0569, -0.41},
                                                                {0.1649, -0.34},
                                                                {0.4984, -1.71},
                                                                {0.9225, -2.62},
                                                                {0.9732, -2.95},
                                                                {10.78, -2.74}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.0168, 0.00},
                                                                 {0.0405, 0.20},
                                                                 {0.0967, 0.27},
                                                                 {0.2256, -0.10},
                                                                 {0.5453, -0.71},
                                                                 {1.027, -1.44},
                                                                 {1.252, -0.98},
                                                                 {16.17, -1.62}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.0923, 0.00},
                                                        {0.0465, 0.10},
                                                        {0.2497, 0.88},
                                                        {0.3789, 1.33},
                                                        {0.3867, 1.43},
                                                        {1.017, 2.21},
                                                        {1.478, 3.07},
                                                        {11.66, 3.61}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.4068, 0.00},
                                                        {-0.0144, 0.15},
                                                        {0.0358, 0.18},
                                                        {0.1196, 0.18},
                                                        {0.1404, 0.04},
                                                        {0.795, -0.11},
                                                        {0.9342, -0.25},
                                                        {16.55, -0.23}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.2528, 0.00},
                                                          {0.1341, 0.55},
                                                          {0.3934, 2.37},
                                                          {0.5129, 2.80},
                                                          {0.7413, 2.96},
                                                          {0.8647, 3.05},
                                                          {1.12, 3.48},
                                                          {6.728, 4.17}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.07}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-27.45, 0.00},
                                                        {-1.35, -0.05},
                                                        {0.004, -0.43},
                                                        {0.8092, -0.10},
                                                        {0.9408, -0.55},
                                                        {1.012, 0.03},
                                                        {1.096, 0.45},
                                                        {1.125, 0.14}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.5341, 0.00},
                                                              {-0.0385, 0.39},
                                                              {-0.0056, 0.63},
                                                              {0.077, 1.49},
                                                              {0.1292, 1.61},
                                                              {0.2242, 1.83},
                                                              {0.3596, 2.05},
                                                              {0.3735, 1.79}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.207, 0.00},
                                                             {0.7099, 0.08},
                                                             {1.808, 0.48},
                                                             {5.753, 0.77},
                                                             {9.752, 0.89},
                                                             {12.22, 0.72},
                                                             {47.16, 0.39},
                                                             {78.01, 0.34}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.444, 0.00},
                                                               {0.7984, 0.23},
                                                               {1.858, 0.28},
                                                               {3.585, 0.52},
                                                               {4.213, 0.63},
                                                               {12, 0.82},
                                                               {42.72, 0.91},
                                                               {84.89, 0.88}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.272, 0.07},
                                                               {0.416, 0.20},
                                                               {0.62, 0.65},
                                                               {0.86, 0.84},
                                                               {0.91, 0.82},
                                                               {1.592, 0.45},
                                                               {1.96, 0.73}}};
inline constexpr std::array<OddsPoint, 7> odds_by_away_s{
    {{0, 0.00}, {0.02, 0.03}, {0.23, 0.12}, {0.27, 0.19}, {0.39, 0.23}, {0.67, -0.19}, {0.78, -0.60}}};
inline constexpr std::array<OddsPoint, 8> odds_by_impulse{{{0.0002, 0.00},
                                                           {0.0003, -0.27},
                                                           {0.0025, -0.39},
                                                           {0.0029, -0.25},
                                                           {0.006, -0.30},
                                                           {0.0065, -0.32},
                                                           {0.0246, -0.99},
                                                           {0.0527, -1.58}}};
inline constexpr std::array<OddsPoint, 7> odds_by_load_after{{{0.0002, 0.00},
                                                              {0.0021, 0.02},
                                                              {0.0025, -0.04},
                                                              {0.0053, 0.25},
                                                              {0.0069, 0.69},
                                                              {0.0403, 0.43},
                                                              {0.1019, -0.12}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.0104, 0.00},
                                                              {0.0344, 0.51},
                                                              {0.0874, 2.12},
                                                              {0.1549, 2.14},
                                                              {0.195, 1.75},
                                                              {0.3163, 1.48},
                                                              {0.6083, 1.15},
                                                              {0.7287, 1.02}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.9936, 0.00},
                                                                 {1.319, 0.44},
                                                                 {1.613, 0.56},
                                                                 {1.772, 0.16},
                                                                 {1.821, -0.58},
                                                                 {2.364, -1.12},
                                                                 {4.333, -1.57},
                                                                 {34.47, -0.94}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0918, 0.00},
                                                             {0.2852, 0.44},
                                                             {0.7613, 1.89},
                                                             {0.967, 2.61},
                                                             {1.729, 2.70},
                                                             {2.97, 3.09},
                                                             {5.247, 3.10},
                                                             {7.005, 3.05}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.384, 0.00}, {0.79, 0.01}, {1.15, 0.31}, {1.5, 0.73}, {1.504, 0.99}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{-0.002, 0.00},
                                                          {0.3343, 1.21},
                                                          {0.479, 1.32},
                                                          {0.5124, 1.30},
                                                          {0.6072, 1.42},
                                                          {0.6205, 1.54},
                                                          {0.7666, 2.03},
                                                          {0.8468, 1.83}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.4483, 0.00},
                                                                  {0.5134, 0.67},
                                                                  {0.6293, 1.06},
                                                                  {0.6413, 1.06},
                                                                  {0.7368, 1.38},
                                                                  {0.7854, 1.43},
                                                                  {0.8439, 0.95},
                                                                  {0.991, 0.55}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.497, 0.00},
                                                           {0.6486, 0.52},
                                                           {0.7239, 0.60},
                                                           {0.8612, 0.92},
                                                           {0.8838, 0.70},
                                                           {0.9158, 0.52},
                                                           {0.9804, -0.23},
                                                           {1.001, -1.76}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0006, 0.00},
                                                                 {0.001, 0.03},
                                                                 {0.0036, 0.35},
                                                                 {0.0087, 0.52},
                                                                 {0.0097, 0.69},
                                                                 {0.0164, 0.79},
                                                                 {0.0284, 0.60},
                                                                 {0.031, 0.26}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1603, 0.00},
                                                            {0.1666, 0.19},
                                                            {0.4843, 0.75},
                                                            {0.5113, 1.38},
                                                            {1.369, 2.12},
                                                            {1.431, 2.14},
                                                            {9.121, 1.29},
                                                            {11.74, 1.65}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.0062, 0.00},
                                                        {-0.001, -0.21},
                                                        {0.0105, -0.02},
                                                        {0.0527, 0.08},
                                                        {0.0715, -0.13},
                                                        {0.1063, -0.38},
                                                        {0.3165, -1.18},
                                                        {0.82, -1.63}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.27}, {3, 0.42}, {5, -0.47}, {8, -0.48}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.66}, {3, 0.99}, {5, 0.38}, {12, 0.05}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.248, 0.00},
                                                              {-0.17, -0.39},
                                                              {-0.01, -1.14},
                                                              {0, -0.88},
                                                              {0.02, -0.92},
                                                              {0.024, -1.20},
                                                              {0.248, -1.33},
                                                              {0.25, -0.88}}};
inline constexpr std::array<OddsPoint, 8> odds_by_stir_before{{{0.0161, 0.00},
                                                               {0.031, -0.14},
                                                               {0.0544, -0.25},
                                                               {0.1082, -0.46},
                                                               {0.4779, -1.23},
                                                               {0.6918, -1.69},
                                                               {1.304, -2.22},
                                                               {20.55, -2.65}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_repeats{{{0.3357, 0.00},
                                                                {0.4646, 0.03},
                                                                {0.6914, 0.48},
                                                                {0.7505, 0.64},
                                                                {0.851, 0.56},
                                                                {0.8604, 0.71},
                                                                {0.9528, 0.24},
                                                                {0.9976, -0.52}}};
inline constexpr std::array<OddsPoint, 8> odds_by_share_repeats{{{0.0581, 0.00},
                                                                 {0.1082, -0.03},
                                                                 {0.6356, -0.27},
                                                                 {0.7244, -0.36},
                                                                 {0.868, -0.36},
                                                                 {0.9109, -0.39},
                                                                 {0.989, -0.42},
                                                                 {0.9921, -0.37}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -15.21;

/// In the order of SwingSign.
inline constexpr std::array<std::span<const OddsPoint>, sign_count> odds_by_sign{
    odds_by_return_share,  odds_by_return_in_usual, odds_by_return_s,
    odds_by_quick_s,       odds_by_speed,           odds_by_push,
    odds_by_push_in_usual, odds_by_push_s,          odds_by_impulse_left,
    odds_by_unrest_after,  odds_by_unrest_before,   odds_by_sink,
    odds_by_rise,          odds_by_unload,          odds_by_bent_before,
    odds_by_hold,          odds_by_rest_level,      odds_by_far_share,
    odds_by_far_forward,   odds_by_departure_s,     odds_by_away_s,
    odds_by_impulse,       odds_by_load_after,      odds_by_load_range,
    odds_by_range_to_push, odds_by_load_rate,       odds_by_quiet_s,
    odds_by_lowest,        odds_by_highest_before,  odds_by_highest,
    odds_by_forward_range, odds_by_settling,        odds_by_back,
    odds_by_turns,         odds_by_crossings,       odds_by_lateness_s,
    odds_by_stir_before,   odds_by_load_repeats,    odds_by_share_repeats};

}  // namespace footing
