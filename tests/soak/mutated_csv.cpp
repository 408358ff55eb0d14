// Mutated tables and layout files: see mutations.h.
#include "tests/soak/mutations.h"

int main(int count, char** words) {
    using footing::seed_of;
    const std::string feet =
        "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm,trigger\n"
        "0.000,400,300,-200,10,200,12,0\n0.005,401,299,-200.5,10,200,12,0\n0.010,402.5,298,-201,10,200,12,"
        "1\n";
    const std::string whole =
        "time_s,total_n,cop_x_mm,cop_y_mm\n0,700,1,2\n0.01,701,1.5,2.5\n0.02,700,\"2\",3\n";
    const std::string cells = "time_s,cell_1,cell_2,cell_3,trigger\n0,1,2,3,0\n0.01,4,5,6,0\n0.02,7,8,9,1\n";
    const std::string grid = "frame,row,col,value\n1,1,1,10\n1,2,3,20\n2,3,4,30\n4,1,1,5\n";
    const std::string layout =
        R"({"name":"p","serial":1,"rate_hz":100,"newtons_per_count":0.5,"plates":[{"name":"left","centre_mm":[-1,0],)"
        R"("cells":[{"x_mm":1,"y_mm":2}]},{"name":"right","centre_mm":[1,0],"cells":[{"x_mm":1,"y_mm":2}]}]})";
    return footing::survive_mutations(
        "tables and layouts",
        {seed_of(0, feet), seed_of(0, whole), seed_of(1, cells), seed_of(2, grid), seed_of(3, layout)}, count,
        words);
}
