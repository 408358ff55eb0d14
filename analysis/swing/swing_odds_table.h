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
                                                                {0.0235, 0.47},
                                                                {0.031, 0.64},
                                                                {0.1187, 0.08},
                                                                {0.1959, 0.16},
                                                                {0.3199, 0.38},
                                                                {0.546, 0.15},
                                                                {0.94, -0.23}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_in_usual{{{0, 0.00},
                                                                   {0.8676, 0.07},
                                                                   {1.264, 0.32},
                                                                   {4.194, 0.24},
                                                                   {7.109, 0.07},
                                                                   {13.7, -0.23},
                                                                   {30.65, -0.27},
                                                                   {34.75, -0.30}}};
inline constexpr std::array<OddsPoint, 8> odds_by_return_s{{{0, 0.00},
                                                            {0.1, -0.15},
                                                            {0.16, -0.05},
                                                            {0.22, 0.24},
                                                            {0.29, 0.60},
                                                            {0.36, 0.47},
                                                            {0.584, 0.67},
                                                            {0.59, 0.63}}};
inline constexpr std::array<OddsPoint, 8> odds_by_quick_s{{{0.01, 0.00},
                                                           {0.08, -0.62},
                                                           {0.11, -0.83},
                                                           {0.176, -0.15},
                                                           {0.2, -0.07},
                                                           {0.24, -0.18},
                                                           {0.49, -0.61},
                                                           {0.56, -0.64}}};
inline constexpr std::array<OddsPoint, 8> odds_by_speed{{{0.0071, 0.00},
                                                         {0.1438, 0.65},
                                                         {0.1502, 0.88},
                                                         {0.3969, 1.81},
                                                         {0.7487, 2.93},
                                                         {1.301, 3.31},
                                                         {3.235, 2.63},
                                                         {4.844, 2.32}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push{{{-0.0007, 0.00},
                                                        {0.0088, 0.04},
                                                        {0.0299, -0.37},
                                                        {0.04, -0.33},
                                                        {0.1095, -0.07},
                                                        {0.1942, -0.07},
                                                        {0.3323, 0.48},
                                                        {0.425, 0.48}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_in_usual{{{-0.0345, 0.00},
                                                                 {0.3897, -0.09},
                                                                 {1.315, 0.34},
                                                                 {1.58, 0.99},
                                                                 {5.425, 1.42},
                                                                 {10.06, 1.37},
                                                                 {17.82, 1.52},
                                                                 {24.5, 1.62}}};
inline constexpr std::array<OddsPoint, 8> odds_by_push_s{{{0, 0.00},
                                                          {0.096, -0.35},
                                                          {0.11, 0.28},
                                                          {0.12, 0.54},
                                                          {0.144, 0.24},
                                                          {0.176, -0.50},
                                                          {0.2, -1.49},
                                                          {0.57, -1.77}}};
inline constexpr std::array<OddsPoint, 6> odds_by_impulse_left{
    {{0, 0.00}, {0.0479, 0.92}, {0.2333, 1.19}, {0.299, 1.40}, {0.5797, 0.94}, {0.9998, -0.15}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_after{{{0.0115, 0.00},
                                                                {0.0263, -0.16},
                                                                {0.0691, -0.28},
                                                                {0.1781, -0.05},
                                                                {0.5106, -1.29},
                                                                {0.8433, -1.93},
                                                                {0.9836, -2.43},
                                                                {12.17, -2.12}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unrest_before{{{0.0187, 0.00},
                                                                 {0.041, 0.37},
                                                                 {0.0933, 0.59},
                                                                 {0.2149, 0.30},
                                                                 {0.5454, -0.47},
                                                                 {1.022, -1.48},
                                                                 {1.162, -1.27},
                                                                 {15.06, -1.78}}};
inline constexpr std::array<OddsPoint, 8> odds_by_sink{{{-0.1161, 0.00},
                                                        {0.0548, -0.07},
                                                        {0.2799, 0.78},
                                                        {0.4066, 1.14},
                                                        {0.6563, 1.55},
                                                        {1.01, 2.20},
                                                        {1.411, 3.05},
                                                        {11.79, 3.89}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rise{{{-0.4381, 0.00},
                                                        {-0.0142, 0.06},
                                                        {0.0417, 0.01},
                                                        {0.121, 0.01},
                                                        {0.1371, -0.09},
                                                        {0.764, -0.21},
                                                        {0.84, -0.56},
                                                        {15.8, -0.48}}};
inline constexpr std::array<OddsPoint, 8> odds_by_unload{{{-0.3183, 0.00},
                                                          {-0.066, -0.42},
                                                          {0.367, 0.75},
                                                          {0.386, 1.29},
                                                          {0.6944, 1.23},
                                                          {0.859, 1.03},
                                                          {1.064, 1.63},
                                                          {6.896, 2.47}}};
inline constexpr std::array<OddsPoint, 2> odds_by_bent_before{{{0, 0.00}, {1, -1.22}}};
inline constexpr std::array<OddsPoint, 8> odds_by_hold{{{-19.79, 0.00},
                                                        {-0.8808, -0.20},
                                                        {0.0021, -0.33},
                                                        {0.7941, 0.33},
                                                        {0.9113, -0.09},
                                                        {1.008, 0.07},
                                                        {1.102, 0.57},
                                                        {1.117, 0.33}}};
inline constexpr std::array<OddsPoint, 8> odds_by_rest_level{{{-0.4961, 0.00},
                                                              {-0.0286, 0.26},
                                                              {-0.0045, 0.52},
                                                              {0.0662, 1.32},
                                                              {0.1243, 1.40},
                                                              {0.2311, 1.64},
                                                              {0.3671, 1.90},
                                                              {0.3895, 1.69}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_share{{{0.2262, 0.00},
                                                             {0.7924, -0.05},
                                                             {1.737, 0.24},
                                                             {6.316, 0.61},
                                                             {8.742, 0.70},
                                                             {13.55, 0.85},
                                                             {53.93, 0.48},
                                                             {76.03, 0.40}}};
inline constexpr std::array<OddsPoint, 8> odds_by_far_forward{{{0.4817, 0.00},
                                                               {0.8355, 0.16},
                                                               {1.837, 0.15},
                                                               {3.75, 0.42},
                                                               {4.075, 0.43},
                                                               {12.55, 1.03},
                                                               {41.88, 1.15},
                                                               {89.74, 1.37}}};
inline constexpr std::array<OddsPoint, 8> odds_by_departure_s{{{0.248, 0.00},
                                                               {0.28, 0.15},
                                                               {0.4, 0.53},
                                                               {0.65, 0.95},
                                                               {0.88, 1.14},
                                                               {0.89, 1.20},
                                                               {1.6, 0.75},
                                                               {1.95, 1.12}}};
inline constexpr std::array<OddsPoint, 7> odds_by_away_s{
    {{0, 0.00}, {0.02, 0.04}, {0.25, 0.24}, {0.264, 0.34}, {0.42, 0.56}, {0.72, 0.07}, {0.77, -0.45}}};
inline constexpr std::array<OddsPoint, 7> odds_by_impulse{{{0.0002, 0.00},
                                                           {0.0025, -0.18},
                                                           {0.0028, -0.11},
                                                           {0.0061, -0.20},
                                                           {0.0063, -0.22},
                                                           {0.0233, -0.83},
                                                           {0.0807, -1.47}}};
inline constexpr std::array<OddsPoint, 7> odds_by_load_after{{{0.0002, 0.00},
                                                              {0.0024, -0.02},
                                                              {0.0026, -0.02},
                                                              {0.0065, 0.43},
                                                              {0.0073, 0.87},
                                                              {0.0413, 0.81},
                                                              {0.1157, 0.19}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_range{{{0.0106, 0.00},
                                                              {0.0337, 0.59},
                                                              {0.0887, 2.40},
                                                              {0.1554, 2.68},
                                                              {0.2059, 2.12},
                                                              {0.3437, 1.54},
                                                              {0.6342, 1.18},
                                                              {0.7255, 1.02}}};
inline constexpr std::array<OddsPoint, 8> odds_by_range_to_push{{{0.9975, 0.00},
                                                                 {1.328, 0.71},
                                                                 {1.675, 1.04},
                                                                 {1.786, 0.54},
                                                                 {1.92, -0.01},
                                                                 {2.339, -0.49},
                                                                 {3.803, -1.06},
                                                                 {36.5, -0.29}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_rate{{{0.0941, 0.00},
                                                             {0.289, 0.60},
                                                             {0.76, 1.96},
                                                             {0.9432, 2.06},
                                                             {1.794, 2.33},
                                                             {3.07, 2.85},
                                                             {5.337, 3.04},
                                                             {6.985, 2.97}}};
inline constexpr std::array<OddsPoint, 5> odds_by_quiet_s{
    {{0.38, 0.00}, {0.72, 0.02}, {1.17, 0.20}, {1.5, 0.84}, {1.504, 0.81}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lowest{{{-0.0012, 0.00},
                                                          {0.2985, 1.15},
                                                          {0.472, 1.40},
                                                          {0.4908, 1.10},
                                                          {0.5941, 1.16},
                                                          {0.6031, 1.24},
                                                          {0.7578, 1.63},
                                                          {0.8361, 1.43}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest_before{{{0.4332, 0.00},
                                                                  {0.4865, 0.75},
                                                                  {0.6012, 0.82},
                                                                  {0.6138, 0.93},
                                                                  {0.7152, 1.10},
                                                                  {0.7575, 1.42},
                                                                  {0.8396, 1.10},
                                                                  {0.9878, 0.74}}};
inline constexpr std::array<OddsPoint, 8> odds_by_highest{{{0.4738, 0.00},
                                                           {0.5868, 0.10},
                                                           {0.6759, 0.10},
                                                           {0.8476, 0.62},
                                                           {0.8628, 0.60},
                                                           {0.9091, 0.38},
                                                           {0.9792, -0.41},
                                                           {1.001, -2.13}}};
inline constexpr std::array<OddsPoint, 8> odds_by_forward_range{{{0.0006, 0.00},
                                                                 {0.0009, -0.00},
                                                                 {0.0036, 0.29},
                                                                 {0.0084, 0.48},
                                                                 {0.0094, 0.68},
                                                                 {0.0163, 0.84},
                                                                 {0.0283, 0.22},
                                                                 {0.029, -0.39}}};
inline constexpr std::array<OddsPoint, 8> odds_by_settling{{{0.1728, 0.00},
                                                            {0.1753, 0.20},
                                                            {0.4985, 1.08},
                                                            {0.5632, 1.73},
                                                            {1.295, 2.07},
                                                            {1.506, 2.00},
                                                            {8.33, 1.05},
                                                            {11.35, 1.18}}};
inline constexpr std::array<OddsPoint, 8> odds_by_back{{{-0.006, 0.00},
                                                        {-0.0012, -0.05},
                                                        {0.0086, 0.14},
                                                        {0.0528, 0.17},
                                                        {0.0601, -0.13},
                                                        {0.1088, -0.50},
                                                        {0.293, -1.58},
                                                        {0.7832, -2.11}}};
inline constexpr std::array<OddsPoint, 5> odds_by_turns{
    {{1, 0.00}, {2, 0.30}, {3, 0.67}, {5, -0.31}, {9, -0.56}}};
inline constexpr std::array<OddsPoint, 5> odds_by_crossings{
    {{1, 0.00}, {2, 0.95}, {3, 1.36}, {5, 0.30}, {12, -0.41}}};
inline constexpr std::array<OddsPoint, 8> odds_by_lateness_s{{{-0.248, 0.00},
                                                              {-0.15, -0.18},
                                                              {-0.01, -0.93},
                                                              {0, -0.74},
                                                              {0.01, -0.78},
                                                              {0.02, -1.16},
                                                              {0.232, -1.38},
                                                              {0.25, -1.02}}};
inline constexpr std::array<OddsPoint, 8> odds_by_stir_before{{{0.017, 0.00},
                                                               {0.0303, -0.12},
                                                               {0.0555, -0.19},
                                                               {0.1082, -0.28},
                                                               {0.4391, -1.00},
                                                               {0.6804, -1.49},
                                                               {1.29, -1.77},
                                                               {21.43, -2.23}}};
inline constexpr std::array<OddsPoint, 8> odds_by_load_repeats{{{0.3328, 0.00},
                                                                {0.4611, 0.04},
                                                                {0.6829, 0.38},
                                                                {0.7358, 0.59},
                                                                {0.842, 0.48},
                                                                {0.8514, 0.41},
                                                                {0.9514, 0.15},
                                                                {0.9966, -0.79}}};
inline constexpr std::array<OddsPoint, 8> odds_by_share_repeats{{{0.0563, 0.00},
                                                                 {0.0866, 0.18},
                                                                 {0.6309, 0.06},
                                                                 {0.7188, 0.06},
                                                                 {0.8635, 0.19},
                                                                 {0.9081, 0.17},
                                                                 {0.9894, 0.19},
                                                                 {0.9922, 0.34}}};

/// Of a candidate whose every sign is at its first point.
inline constexpr double odds_at_first = -15.81;

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
