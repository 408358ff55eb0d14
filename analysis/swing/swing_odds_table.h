#pragma once

#include <array>
#include <span>

#include "analysis/swing/swing_likeness.h"
#include "analysis/swing/swing_signs.h"

// Made by tests/bench/swing_odds/fit.py, which says of what and how; docs/formulas.md, F22. Not to be changed
// by hand.

namespace footing {

struct OddsPoint {
    double value;
    double log_odds;
};

inline constexpr std::array<OddsPoint, 8> odds_by_return_share{{{-0.0041, 0.00},
                                                                {0.018, 0.32},
                                                                {0.0224, 0.70},
                                                                {0.1082, -0.07},
                                                                {0.1731, -0.28},
                                                                {0.2844, 0.02},
                                                                {0.5365, 0.07},
                                                                {0.5425, 0.17}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{-0.1527, 0.00},
                                                                   {0.6112, -0.17},
                                                                   {0.75, -0.05},
                                                                   {3.74, -0.11},
                                                                   {5.852, -0.31},
                                                                   {11.24, -0.90},
                                                                   {23.72, -1.23},
                                                                   {29.2, -0.97}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.09, 0.22},
                                                            {0.18, -0.09},
                                                            {0.24, -0.17},
                                                            {0.32, -0.10},
                                                            {0.37, -0.02},
                                                            {0.59, 0.39},
                                                            {0.592, 0.59}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0, 0.00},
                                                           {0.07, -0.70},
                                                           {0.1, -0.92},
                                                           {0.18, -0.47},
                                                           {0.23, -0.65},
                                                           {0.25, -0.70},
                                                           {0.47, -1.18},
                                                           {0.56, -0.97}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0012, 0.00},
                                                         {0.1138, 0.86},
                                                         {0.1473, 1.12},
                                                         {0.3479, 1.50},
                                                         {0.629, 2.40},
                                                         {1.174, 3.45},
                                                         {2.879, 3.57},
                                                         {2.92, 3.24}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0003, 0.00},
                                                        {0.0083, 0.35},
                                                        {0.0267, 0.28},
                                                        {0.0324, 0.24},
                                                        {0.0975, 0.32},
                                                        {0.1741, 0.53},
                                                        {0.3586, 1.46},
                                                        {0.4146, 1.27}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0157, 0.00},
                                                                 {0.3908, -0.20},
                                                                 {1.314, 0.27},
                                                                 {1.649, 0.95},
                                                                 {5.394, 2.03},
                                                                 {10.2, 1.88},
                                                                 {21.64, 2.19},
                                                                 {26.73, 2.12}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.096, -0.68},
                                                          {0.11, -0.15},
                                                          {0.13, 0.14},
                                                          {0.16, -0.12},
                                                          {0.18, -0.55},
                                                          {0.25, -1.19},
                                                          {0.592, -1.47}}};
inline constexpr std::array<OddsPoint, 5> odds_by_impulse_left{
    {{0, 0.00}, {0.1718, 0.65}, {0.3261, 0.62}, {0.5855, 0.36}, {0.9995, -1.28}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0155, 0.00},
                                                                {0.025, 0.04},
                                                                {0.0962, 0.57},
                                                                {0.2045, 1.14},
                                                                {0.3623, 0.71},
                                                                {0.9387, -0.68},
                                                                {1.589, -0.44},
                                                                {12.52, -0.01}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.0324, 0.00},
                                                                 {0.0375, 0.59},
                                                                 {0.1387, 1.20},
                                                                 {0.3023, 1.44},
                                                                 {0.4389, 1.51},
                                                                 {0.9968, 0.62},
                                                                 {1.096, 0.63},
                                                                 {16.02, -1.05}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.0927, 0.00},
                                                        {0.0848, -0.48},
                                                        {0.3896, 1.03},
                                                        {0.3904, 0.61},
                                                        {0.6518, 1.15},
                                                        {0.9807, 1.30},
                                                        {1.351, 2.57},
                                                        {11.78, 3.11}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.367, 0.00},
                                                        {-0.0202, 0.09},
                                                        {0.0784, 0.08},
                                                        {0.1195, 0.47},
                                                        {0.1515, 0.55},
                                                        {0.6374, -0.32},
                                                        {0.6755, -0.63},
                                                        {16.57, -1.30}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.481, 0.00},
                                                          {-0.0185, -0.19},
                                                          {0.2888, 1.52},
                                                          {0.3803, 1.90},
                                                          {0.6001, 1.35},
                                                          {0.7475, 1.45},
                                                          {1.552, 2.36},
                                                          {6.786, 2.70}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -0.92}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-16.19, 0.00},
                                                        {-0.5201, 0.63},
                                                        {0.0476, 0.74},
                                                        {0.8655, 1.63},
                                                        {0.8948, 1.46},
                                                        {1.01, 2.03},
                                                        {1.129, 1.72},
                                                        {1.134, 0.93}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.4093, 0.00},
                                                              {-0.0094, 1.09},
                                                              {-0.0021, 1.83},
                                                              {0.0906, 2.18},
                                                              {0.1253, 2.06},
                                                              {0.2051, 2.47},
                                                              {0.3412, 2.56},
                                                              {0.3682, 1.95}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.2349, 0.00},
                                                             {0.8988, -0.12},
                                                             {1.525, 0.55},
                                                             {5.354, 0.92},
                                                             {8.068, 0.71},
                                                             {11.3, 0.79},
                                                             {36.73, 0.33},
                                                             {58.88, 0.25}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.4305, 0.00},
                                                               {0.766, 0.44},
                                                               {1.692, 0.43},
                                                               {2.549, 0.52},
                                                               {3.547, 0.59},
                                                               {5.303, 0.54},
                                                               {27.95, 1.07},
                                                               {51.19, 1.28}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.25, -0.01},
                                                               {0.36, 0.31},
                                                               {0.63, 0.55},
                                                               {0.85, 0.42},
                                                               {0.87, 0.62},
                                                               {1.488, 0.24},
                                                               {1.88, 0.38}}};
inline constexpr std::array<OddsPoint, 6> odds_by_away_s{
    {{0, 0.00}, {0.23, 0.07}, {0.27, 0.47}, {0.42, 0.76}, {0.8115, 0.32}, {0.84, -0.47}}};
inline constexpr std::array<OddsPoint, 7> odds_by_impulse{{{0.0001, 0.00},
                                                           {0.0017, -0.08},
                                                           {0.0018, 0.02},
                                                           {0.0041, 0.05},
                                                           {0.0049, 0.09},
                                                           {0.017, -0.62},
                                                           {0.1086, -1.91}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_after{{{0.0001, 0.00},
                                                              {0.0002, -0.05},
                                                              {0.002, 0.03},
                                                              {0.0025, 0.10},
                                                              {0.007, 0.42},
                                                              {0.0085, 0.86},
                                                              {0.055, 0.44},
                                                              {0.1183, -0.06}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.0068, 0.00},
                                                              {0.0346, 1.27},
                                                              {0.0728, 3.28},
                                                              {0.166, 3.50},
                                                              {0.1822, 3.08},
                                                              {0.3049, 2.43},
                                                              {0.653, 1.63},
                                                              {0.6773, 1.56}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.6787, 0.00},
                                                                 {1.352, 0.65},
                                                                 {1.599, 0.69},
                                                                 {1.694, 1.39},
                                                                 {1.804, 0.33},
                                                                 {2.391, -0.87},
                                                                 {7.635, -1.58},
                                                                 {35.03, -0.03}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0672, 0.00},
                                                             {0.2969, 1.10},
                                                             {0.5292, 1.68},
                                                             {0.9526, 1.87},
                                                             {1.486, 2.42},
                                                             {2.732, 3.03},
                                                             {5.867, 3.88},
                                                             {7.077, 4.27}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.384, 0.00}, {0.79, -0.45}, {1.06, -0.12}, {1.5, 1.39}, {1.504, 1.46}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{0.0138, 0.00},
                                                          {0.3319, 1.87},
                                                          {0.4823, 1.79},
                                                          {0.5326, 1.88},
                                                          {0.5932, 1.87},
                                                          {0.6501, 2.24},
                                                          {0.7637, 2.97},
                                                          {0.8039, 2.43}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.434, 0.00},
                                                                  {0.509, 1.21},
                                                                  {0.5914, 1.80},
                                                                  {0.6466, 2.26},
                                                                  {0.7406, 2.31},
                                                                  {0.7444, 2.17},
                                                                  {0.8317, 1.67},
                                                                  {0.9764, 0.88}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.4789, 0.00},
                                                           {0.6222, -0.09},
                                                           {0.6647, -0.28},
                                                           {0.8441, 0.72},
                                                           {0.8542, 0.87},
                                                           {0.911, 1.01},
                                                           {0.9861, -0.37},
                                                           {0.9913, -1.67}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0009, 0.00},
                                                                 {0.0016, 0.10},
                                                                 {0.0058, 0.27},
                                                                 {0.0109, 0.59},
                                                                 {0.0127, 0.87},
                                                                 {0.018, 0.69},
                                                                 {0.0407, -0.18},
                                                                 {0.0422, -0.99}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1707, 0.00},
                                                            {0.2205, 0.36},
                                                            {0.4803, 1.11},
                                                            {0.719, 1.90},
                                                            {1.243, 2.27},
                                                            {1.874, 1.99},
                                                            {10.89, 0.95},
                                                            {12.36, 1.31}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.0063, 0.00},
                                                        {-0.0014, 0.15},
                                                        {0.008, 0.68},
                                                        {0.0476, 1.00},
                                                        {0.0548, 0.82},
                                                        {0.0985, 0.93},
                                                        {0.2373, 0.03},
                                                        {0.4989, -1.57}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.25}, {3, 0.69}, {5, 0.23}, {8, -0.31}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.92}, {3, 1.03}, {5, -0.02}, {11, -0.94}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.25, 0.00},
                                                              {-0.17, -0.12},
                                                              {-0.01, -1.07},
                                                              {0, -1.11},
                                                              {0.02, -1.04},
                                                              {0.03, -1.33},
                                                              {0.35, -0.68},
                                                              {0.424, -0.80}}};
inline constexpr std::array<OddsPoint, 8> odds_by_stir_before{{{0.012, 0.00},
                                                               {0.0238, 0.09},
                                                               {0.0568, 0.07},
                                                               {0.1166, -0.08},
                                                               {0.4567, -1.04},
                                                               {0.5531, -1.02},
                                                               {1.416, -1.67},
                                                               {40.7, -2.35}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_repeats{{{0.2987, 0.00},
                                                                {0.4963, 0.23},
                                                                {0.6715, 0.38},
                                                                {0.7885, 0.83},
                                                                {0.8529, 0.53},
                                                                {0.8849, 0.67},
                                                                {0.9706, 0.02},
                                                                {0.9902, -0.99}}};
inline constexpr std::array<OddsPoint, 8> odds_by_share_repeats{{{0, 0.00},
                                                                 {0.1162, 0.18},
                                                                 {0.6241, 0.33},
                                                                 {0.7475, 0.22},
                                                                 {0.8573, 0.42},
                                                                 {0.9081, 0.49},
                                                                 {0.9884, 0.41},
                                                                 {0.9891, 0.41}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -23.74;

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

/// What the signs alone tell counts so much beside the likeness.
inline constexpr std::array<OddsPoint, 2> odds_by_signs{{{-6, 0.00}, {6, 10.59}}};
inline constexpr std::array<OddsPoint, 5> odds_by_load_alike{
    {{-0.2, 0.00}, {0.4, -0.73}, {0.7, -1.12}, {0.85, 0.14}, {1, 4.45}}};
inline constexpr std::array<OddsPoint, 5> odds_by_share_alike{
    {{-0.2, 0.00}, {0.4, 0.27}, {0.7, 0.53}, {0.85, -0.01}, {1, 1.34}}};
inline constexpr std::array<OddsPoint, 5> odds_by_address_apart{
    {{0, 0.00}, {0.03, -0.50}, {0.08, -2.18}, {0.15, -3.35}, {0.3, -4.56}}};
inline constexpr std::array<OddsPoint, 5> odds_by_rest_apart{
    {{0, 0.00}, {0.03, 0.88}, {0.08, 0.65}, {0.15, 0.95}, {0.3, 0.37}}};
inline constexpr std::array<OddsPoint, 5> odds_by_push_apart{
    {{0, 0.00}, {0.2, -0.10}, {0.5, 0.16}, {1, -0.55}, {2, -0.82}}};
inline constexpr std::array<OddsPoint, 5> odds_by_away_apart{
    {{0, 0.00}, {0.2, 0.38}, {0.5, -0.06}, {1, -0.11}, {2, -0.51}}};
inline constexpr std::array<OddsPoint, 5> odds_by_lateness_apart{
    {{0, 0.00}, {0.03, 0.22}, {0.08, 0.77}, {0.15, 1.20}, {0.3, 1.07}}};

/// Of a candidate where all of these are at their first points.
inline constexpr double likeness_odds_at_first = -5.72;

/// In the order of LikenessSign.
inline constexpr std::array<std::span<const OddsPoint>, likeness_sign_count> odds_by_likeness{
    odds_by_load_alike, odds_by_share_alike, odds_by_address_apart, odds_by_rest_apart,
    odds_by_push_apart, odds_by_away_apart,  odds_by_lateness_apart};

}  // namespace footing
