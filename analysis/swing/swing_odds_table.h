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
                                                                {0.0235, 0.44},
                                                                {0.031, 0.73},
                                                                {0.1187, 0.18},
                                                                {0.1959, 0.17},
                                                                {0.3199, 0.35},
                                                                {0.546, 0.11},
                                                                {0.94, -0.27}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {0.8676, -0.03},
                                                                   {1.264, 0.27},
                                                                   {4.194, 0.02},
                                                                   {7.109, -0.10},
                                                                   {13.7, -0.34},
                                                                   {30.65, -0.33},
                                                                   {34.75, -0.34}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.1, -0.21},
                                                            {0.16, -0.17},
                                                            {0.22, 0.20},
                                                            {0.29, 0.58},
                                                            {0.36, 0.56},
                                                            {0.584, 0.84},
                                                            {0.59, 0.74}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0.01, 0.00},
                                                           {0.08, -0.52},
                                                           {0.11, -0.50},
                                                           {0.176, 0.07},
                                                           {0.2, 0.05},
                                                           {0.24, -0.08},
                                                           {0.49, -0.58},
                                                           {0.56, -0.64}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0071, 0.00},
                                                         {0.1438, 0.61},
                                                         {0.1502, 0.91},
                                                         {0.3969, 1.73},
                                                         {0.7487, 2.86},
                                                         {1.301, 3.23},
                                                         {3.235, 2.52},
                                                         {4.844, 2.18}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0007, 0.00},
                                                        {0.0088, 0.03},
                                                        {0.0299, -0.21},
                                                        {0.04, 0.00},
                                                        {0.1095, 0.33},
                                                        {0.1942, 0.32},
                                                        {0.3323, 0.85},
                                                        {0.425, 0.84}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0345, 0.00},
                                                                 {0.3897, -0.04},
                                                                 {1.315, 0.43},
                                                                 {1.58, 0.95},
                                                                 {5.425, 1.19},
                                                                 {10.06, 1.23},
                                                                 {17.82, 1.40},
                                                                 {24.5, 1.49}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.096, -0.37},
                                                          {0.11, 0.17},
                                                          {0.12, 0.41},
                                                          {0.144, 0.11},
                                                          {0.176, -0.75},
                                                          {0.2, -1.68},
                                                          {0.57, -1.96}}};
inline constexpr std::array<OddsPoint, 6> odds_by_impulse_left{
    {{0, 0.00}, {0.0479, 0.95}, {0.2333, 1.39}, {0.299, 1.54}, {0.5797, 1.01}, {0.9998, -0.10}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0115, 0.00},
                                                                {0.0263, -0.15},
                                                                {0.0691, -0.28},
                                                                {0.1781, -0.08},
                                                                {0.5106, -1.05},
                                                                {0.8433, -1.89},
                                                                {0.9836, -2.38},
                                                                {12.17, -2.10}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.0187, 0.00},
                                                                 {0.041, 0.36},
                                                                 {0.0933, 0.58},
                                                                 {0.2149, 0.30},
                                                                 {0.5454, -0.34},
                                                                 {1.022, -1.46},
                                                                 {1.162, -1.22},
                                                                 {15.06, -1.72}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.1161, 0.00},
                                                        {0.0548, -0.04},
                                                        {0.2799, 0.82},
                                                        {0.4066, 1.20},
                                                        {0.6563, 1.69},
                                                        {1.01, 2.41},
                                                        {1.411, 3.20},
                                                        {11.79, 4.05}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.4381, 0.00},
                                                        {-0.0142, 0.09},
                                                        {0.0417, 0.09},
                                                        {0.121, 0.13},
                                                        {0.1371, 0.03},
                                                        {0.764, 0.05},
                                                        {0.84, -0.43},
                                                        {15.8, -0.36}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.3183, 0.00},
                                                          {-0.066, -0.35},
                                                          {0.367, 0.83},
                                                          {0.386, 1.32},
                                                          {0.6944, 1.40},
                                                          {0.859, 1.27},
                                                          {1.064, 1.81},
                                                          {6.896, 2.59}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.11}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-19.79, 0.00},
                                                        {-0.8808, -0.17},
                                                        {0.0021, -0.33},
                                                        {0.7941, 0.39},
                                                        {0.9113, 0.02},
                                                        {1.008, 0.36},
                                                        {1.102, 1.00},
                                                        {1.117, 0.66}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.4961, 0.00},
                                                              {-0.0286, 0.26},
                                                              {-0.0045, 0.60},
                                                              {0.0662, 1.37},
                                                              {0.1243, 1.32},
                                                              {0.2311, 1.51},
                                                              {0.3671, 1.78},
                                                              {0.3895, 1.58}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.2262, 0.00},
                                                             {0.7924, -0.01},
                                                             {1.737, 0.34},
                                                             {6.316, 0.86},
                                                             {8.742, 0.84},
                                                             {13.55, 0.93},
                                                             {53.93, 0.59},
                                                             {76.03, 0.52}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.4817, 0.00},
                                                               {0.8355, 0.15},
                                                               {1.837, 0.17},
                                                               {3.75, 0.47},
                                                               {4.075, 0.62},
                                                               {12.55, 0.97},
                                                               {41.88, 1.13},
                                                               {89.74, 1.35}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.28, -0.02},
                                                               {0.4, 0.28},
                                                               {0.65, 0.66},
                                                               {0.88, 0.85},
                                                               {0.89, 0.82},
                                                               {1.6, 0.36},
                                                               {1.95, 0.77}}};
inline constexpr std::array<OddsPoint, 7> odds_by_away_s{
    {{0, 0.00}, {0.02, 0.05}, {0.25, 0.20}, {0.264, 0.25}, {0.42, 0.47}, {0.72, 0.02}, {0.77, -0.52}}};
inline constexpr std::array<OddsPoint, 7> odds_by_impulse{{{0.0002, 0.00},
                                                           {0.0025, -0.17},
                                                           {0.0028, -0.03},
                                                           {0.0061, -0.15},
                                                           {0.0063, -0.09},
                                                           {0.0233, -0.74},
                                                           {0.0807, -1.36}}};
inline constexpr std::array<OddsPoint, 7> odds_by_load_after{{{0.0002, 0.00},
                                                              {0.0024, 0.00},
                                                              {0.0026, -0.02},
                                                              {0.0065, 0.42},
                                                              {0.0073, 0.79},
                                                              {0.0413, 0.73},
                                                              {0.1157, 0.14}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.0106, 0.00},
                                                              {0.0337, 0.57},
                                                              {0.0887, 2.46},
                                                              {0.1554, 2.60},
                                                              {0.2059, 2.03},
                                                              {0.3437, 1.49},
                                                              {0.6342, 1.14},
                                                              {0.7255, 1.00}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.9975, 0.00},
                                                                 {1.328, 0.60},
                                                                 {1.675, 0.84},
                                                                 {1.786, 0.48},
                                                                 {1.92, -0.20},
                                                                 {2.339, -0.68},
                                                                 {3.803, -1.31},
                                                                 {36.5, -0.60}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0941, 0.00},
                                                             {0.289, 0.55},
                                                             {0.76, 1.95},
                                                             {0.9432, 2.21},
                                                             {1.794, 2.38},
                                                             {3.07, 2.90},
                                                             {5.337, 3.05},
                                                             {6.985, 2.98}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.38, 0.00}, {0.72, -0.12}, {1.17, 0.01}, {1.5, 0.50}, {1.504, 0.52}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{-0.0012, 0.00},
                                                          {0.2985, 1.21},
                                                          {0.472, 1.49},
                                                          {0.4908, 1.17},
                                                          {0.5941, 1.24},
                                                          {0.6031, 1.27},
                                                          {0.7578, 1.65},
                                                          {0.8361, 1.50}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.4332, 0.00},
                                                                  {0.4865, 0.69},
                                                                  {0.6012, 0.78},
                                                                  {0.6138, 0.95},
                                                                  {0.7152, 1.10},
                                                                  {0.7575, 1.38},
                                                                  {0.8396, 1.05},
                                                                  {0.9878, 0.69}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.4738, 0.00},
                                                           {0.5868, 0.05},
                                                           {0.6759, 0.04},
                                                           {0.8476, 0.47},
                                                           {0.8628, 0.44},
                                                           {0.9091, 0.23},
                                                           {0.9792, -0.52},
                                                           {1.001, -2.19}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0006, 0.00},
                                                                 {0.0009, 0.01},
                                                                 {0.0036, 0.29},
                                                                 {0.0084, 0.50},
                                                                 {0.0094, 0.70},
                                                                 {0.0163, 0.90},
                                                                 {0.0283, 0.65},
                                                                 {0.029, 0.38}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1728, 0.00},
                                                            {0.1753, 0.18},
                                                            {0.4985, 1.00},
                                                            {0.5632, 1.75},
                                                            {1.295, 2.38},
                                                            {1.506, 2.10},
                                                            {8.33, 1.15},
                                                            {11.35, 1.31}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.006, 0.00},
                                                        {-0.0012, -0.18},
                                                        {0.0086, -0.02},
                                                        {0.0528, 0.26},
                                                        {0.0601, -0.03},
                                                        {0.1088, -0.38},
                                                        {0.293, -1.53},
                                                        {0.7832, -2.11}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.34}, {3, 0.57}, {5, -0.54}, {9, -0.88}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.92}, {3, 1.26}, {5, 0.36}, {12, -0.09}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.248, 0.00},
                                                              {-0.15, -0.22},
                                                              {-0.01, -1.05},
                                                              {0, -0.82},
                                                              {0.01, -0.87},
                                                              {0.02, -1.27},
                                                              {0.232, -1.48},
                                                              {0.25, -1.11}}};
inline constexpr std::array<OddsPoint, 8> odds_by_stir_before{{{0.017, 0.00},
                                                               {0.0303, -0.11},
                                                               {0.0555, -0.21},
                                                               {0.1082, -0.43},
                                                               {0.4391, -0.99},
                                                               {0.6804, -1.59},
                                                               {1.29, -1.91},
                                                               {21.43, -2.36}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_repeats{{{0.3328, 0.00},
                                                                {0.4611, 0.04},
                                                                {0.6829, 0.45},
                                                                {0.7358, 0.66},
                                                                {0.842, 0.53},
                                                                {0.8514, 0.53},
                                                                {0.9514, 0.14},
                                                                {0.9966, -0.86}}};
inline constexpr std::array<OddsPoint, 8> odds_by_share_repeats{{{0.0563, 0.00},
                                                                 {0.0866, 0.11},
                                                                 {0.6309, 0.07},
                                                                 {0.7188, 0.03},
                                                                 {0.8635, 0.14},
                                                                 {0.9081, 0.12},
                                                                 {0.9894, 0.11},
                                                                 {0.9922, 0.27}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -15.70;

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
