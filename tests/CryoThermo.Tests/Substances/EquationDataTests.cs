using CryoThermo.Substances;
using CryoThermo.Tests.EquationsOfState.Helmholtz;

namespace CryoThermo.Tests.Substances;

/// <summary>
/// Guards the equations against slips of a later edit. All sums, pressures and heat capacities of this class are computed here from the
/// coefficients as they were collected, by a program of its own: regressions, not proofs.
/// </summary>
public sealed class EquationDataTests
{
    private static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    public static TheoryData<string, int> All
    {
        get
        {
            TheoryData<string, int> all = [];
            foreach (Substance substance in Catalog.All)
            {
                for (int i = 0; i < substance.Equations.Count; i++)
                {
                    all.Add(substance.Name, i);
                }
            }

            return all;
        }
    }

    /// <summary>
    /// Numbers of density, bell and critical terms; sum of all coefficients; sums over the density and bell terms that weigh every exponent and
    /// parameter; gas constant; product of reducing temperature and density.
    /// </summary>
    public static TheoryData<string, int, int, int, int, double, double, double, double, double> Sums => new()
    {
        { "nitrogen", 0, 32, 4, 0, 2624.85612049, 101.519421441, 2308448.66326, 8.31451, 1411318.7088 },
        { "methane", 0, 36, 4, 0, -1.0715577214, 153.455029446, 20297.9933321, 8.31451, 1932152.78819 },
        { "argon", 0, 37, 4, 0, -0.113945014296, 498.006984628, 2229.91821381, 8.31451, 2020325.35167 },
        { "oxygen", 0, 32, 0, 0, -1.03465569916, 225.373883116, 0.0, 8.31434, 2106939.03 },
        { "propane", 0, 11, 7, 0, -2.067274931, 71.78582955, 86.6380062591, 8.314472, 1849450.0 },
        { "ethane", 0, 39, 5, 0, 172.256260288, 436.121059765, 170418.866379, 8.314472, 2093558.35644 },
        { "n-butane", 0, 23, 2, 0, -1.05763550711, 90.4329645354, 14.2763532676, 8.314472, 1667667.43173 },
        { "isobutane", 0, 23, 2, 0, -1.11162963773, 75.6287031341, 23.1676318659, 8.314472, 1582203.61571 },
        { "ethylene", 0, 30, 5, 0, 565.743330147, 271.342662765, 15240221.8205, 8.31451, 2156286.99227 },
        { "carbon dioxide", 0, 34, 5, 3, 2330.70737141, 418.462368436, 48027631.4149, 8.31451, 3231333.61933 },
        { "air", 0, 19, 0, 0, -1.17080862372, 25.0857445802, 0.0, 8.31451, 1385690.98824 },
        { "ethylene", 1, 12, 0, 0, -1.00153693724, 38.6196689329, 0.0, 8.31451, 2156240.87466 },
        { "propylene", 0, 12, 9, 0, -4.227749826, 97.4416692097, 237.107784164, 8.314472, 1987499.427 },
        { "isopentane", 0, 12, 0, 0, -1.07726091, 58.3394626, 0.0, 8.314472, 1505804.85 },
        { "neopentane", 0, 12, 0, 0, -1.12105742, 60.157456325, 0.0, 8.314472, 1418329.8 },
        { "1-butene", 0, 12, 0, 0, -1.09520127, 48.4475207696, 0.0, 8.314472, 1777789.6 },
        { "isobutene", 0, 12, 0, 0, -1.11206732, 51.1539432936, 0.0, 8.314472, 1743435.3 },
        { "krypton", 0, 12, 0, 0, -0.9626082, 30.949486, 0.0, 8.314472, 2272858.0 },
        { "xenon", 0, 12, 0, 0, -0.99100341, 32.217373975, 0.0, 8.314472, 2433757.2 },
        { "nitrous oxide", 0, 12, 0, 0, -0.80262442, 39.28710385, 0.0, 8.314472, 3178770.4 },
        { "carbon monoxide", 0, 12, 0, 0, -0.94067182, 37.392753825, 0.0, 8.314472, 1441531.0 },
        { "octafluoropropane", 0, 12, 0, 0, -0.10791405, 101.37444175, 0.0, 8.314472, 1152366.8 },
        { "hexafluoroethane", 0, 12, 0, 0, -1.02621871, 46.924698475, 0.0, 8.314472, 1302225.32 },
        { "tetrafluoromethane", 0, 22, 0, 0, -1.140855673, 132.429169037, 0.0, 8.31451, 1618819.32447 },
        { "trifluoromethane", 0, 17, 0, 0, -0.633715392, 92.8685799156, 0.0, 8.314472, 2250683.36 },
        { "1,1,1,2-tetrafluoroethane", 0, 21, 0, 0, -1.0775430024, 65.8906624605, 0.0, 8.314471, 1862978.67336 },
        { "difluoromethane", 0, 19, 0, 0, -3.92038693425, 115.1569704, 0.0, 8.314471, 2862757.96617 },
        { "sulfur hexafluoride", 0, 12, 0, 0, -1.10695765547, 59.1703391586, 0.0, 8.31451, 1619852.46871 },
        { "hydrogen", 0, 9, 5, 0, -1.132315, 74.245104188, 2.47301644526, 8.314472, 514012.66 },
        { "parahydrogen", 0, 9, 5, 0, -1.2979592, 80.173423678, 5.00020486056, 8.314472, 511790.644 },
        { "orthohydrogen", 0, 9, 5, 0, -1.0672314, 88.5749154248, 26.0631930773, 8.314472, 513082.9 },
        { "helium", 0, 12, 11, 0, 0.459094137, 105.580218855, 248.779015269, 8.3144598, 90313.53661 },
        { "helium", 1, 12, 0, 0, -1.18124203305, 17.4993126932, 0.0, 8.314472, 90393.0247 },
        { "neon", 0, 29, 0, 0, -0.989726549274, 220.572694404, 0.0, 8.31434, 1062553.1676 },
        { "argon", 1, 12, 0, 0, -0.94924836717, 31.7085654505, 0.0, 8.31451, 2020325.35297 },
        { "oxygen", 1, 12, 0, 0, -0.96871018667, 34.2533938422, 0.0, 8.31451, 2107112.24483 },
        { "nitrogen", 1, 12, 0, 0, -0.97990312238, 39.0267300985, 0.0, 8.31451, 1411322.92403 },
        { "methane", 1, 12, 0, 0, -0.99555406722, 37.6581056247, 0.0, 8.31451, 1932152.75637 },
        { "ethane", 1, 12, 0, 0, -1.02364577706, 41.4263497576, 0.0, 8.31451, 2097823.04989 },
        { "propane", 1, 12, 0, 0, -1.05034373725, 47.3284773046, 0.0, 8.31451, 1849224.80396 },
        { "isobutane", 1, 12, 0, 0, -1.05630130092, 49.1519765826, 0.0, 8.31451, 1574231.91345 },
        { "n-butane", 1, 12, 0, 0, -1.06870339969, 46.1891150368, 0.0, 8.31451, 1666497.13879 },
        { "n-pentane", 0, 12, 0, 0, -1.09223871405, 58.0489029473, 0.0, 8.31451, 1510356.79328 },
    };

    /// <summary>cp of the ideal gas, J/(mol K), by each equation, with half a unit of the last digit kept.</summary>
    public static TheoryData<string, int, double, double, double> HeatCapacities => new()
    {
        { "nitrogen", 0, 100, 29.1037222, 1e-7 },
        { "nitrogen", 0, 298.15, 29.1252679, 1e-7 },
        { "nitrogen", 0, 300, 29.1261512, 1e-7 },
        { "methane", 0, 100, 33.2759289, 1e-7 },
        { "methane", 0, 298.15, 35.7084732, 1e-7 },
        { "methane", 0, 300, 35.7775163, 1e-7 },
        { "argon", 0, 100, 20.786275, 1e-7 },
        { "argon", 0, 298.15, 20.786275, 1e-7 },
        { "argon", 0, 300, 20.786275, 1e-7 },
        { "oxygen", 0, 100, 29.1139489, 1e-7 },
        { "oxygen", 0, 298.15, 29.3759054, 1e-7 },
        { "oxygen", 0, 300, 29.3849877, 1e-7 },
        { "propane", 0, 100, 41.2765466, 1e-7 },
        { "propane", 0, 298.15, 73.3362163, 1e-7 },
        { "propane", 0, 300, 73.6980706, 1e-7 },
        { "ethane", 0, 100, 35.6963976, 1e-7 },
        { "ethane", 0, 298.15, 52.4741714, 1e-7 },
        { "ethane", 0, 300, 52.6976237, 1e-7 },
        { "n-butane", 0, 100, 55.357362, 1e-7 },
        { "n-butane", 0, 298.15, 98.4798867, 1e-7 },
        { "n-butane", 0, 300, 98.9485975, 1e-7 },
        { "isobutane", 0, 100, 47.2792498, 1e-7 },
        { "isobutane", 0, 298.15, 96.638653, 1e-7 },
        { "isobutane", 0, 300, 97.1414853, 1e-7 },
        { "ethylene", 0, 100, 33.2705473, 1e-7 },
        { "ethylene", 0, 298.15, 42.8532819, 1e-7 },
        { "ethylene", 0, 300, 43.0290852, 1e-7 },
        { "carbon dioxide", 0, 100, 29.2055516, 1e-7 },
        { "carbon dioxide", 0, 298.15, 37.140798, 1e-7 },
        { "carbon dioxide", 0, 300, 37.2255138, 1e-7 },
        { "air", 0, 100, 29.02947, 1e-7 },
        { "air", 0, 298.15, 29.101208, 1e-7 },
        { "air", 0, 300, 29.1038017, 1e-7 },
        { "ethylene", 1, 300, 43.029, 5.1e-4 },
        { "propylene", 0, 300, 64.686, 5.1e-4 },
        { "isopentane", 0, 300, 119.523, 5.1e-4 },
        { "neopentane", 0, 300, 121.604, 5.1e-4 },
        { "1-butene", 0, 300, 85.488, 5.1e-4 },
        { "isobutene", 0, 300, 89.278, 5.1e-4 },
        { "krypton", 0, 300, 20.786, 5.1e-4 },
        { "xenon", 0, 300, 20.786, 5.1e-4 },
        { "nitrous oxide", 0, 300, 38.670, 5.1e-4 },
        { "carbon monoxide", 0, 300, 29.140, 5.1e-4 },
        { "octafluoropropane", 0, 300, 148.543, 5.1e-4 },
        { "hexafluoroethane", 0, 300, 106.816, 5.1e-4 },
        { "tetrafluoromethane", 0, 300, 61.305, 5.1e-4 },
        { "trifluoromethane", 0, 300, 51.232, 5.1e-4 },
        { "1,1,1,2-tetrafluoroethane", 0, 300, 85.370, 5.1e-4 },
        { "difluoromethane", 0, 300, 43.084, 5.1e-4 },
        { "sulfur hexafluoride", 0, 300, 97.505, 5.1e-4 },
        { "hydrogen", 0, 300, 28.847, 5.1e-4 },
        { "parahydrogen", 0, 300, 29.921, 5.1e-4 },
        { "orthohydrogen", 0, 300, 28.491, 5.1e-4 },
        { "helium", 0, 300, 20.786, 5.1e-4 },
        { "helium", 1, 300, 20.786, 5.1e-4 },
        { "neon", 0, 300, 20.786, 5.1e-4 },
        { "argon", 1, 300, 20.786, 5.1e-4 },
        { "oxygen", 1, 300, 29.386, 5.1e-4 },
        { "nitrogen", 1, 300, 29.125, 5.1e-4 },
        { "methane", 1, 300, 35.777, 5.1e-4 },
        { "ethane", 1, 300, 52.706, 5.1e-4 },
        { "propane", 1, 300, 73.949, 5.1e-4 },
        { "isobutane", 1, 300, 97.139, 5.1e-4 },
        { "n-butane", 1, 300, 98.952, 5.1e-4 },
        { "n-pentane", 0, 300, 120.604, 5.1e-4 },
    };

    /// <summary>Temperature, K, molar density, mol/m3, and pressure, Pa, to nine digits.</summary>
    public static TheoryData<string, int, double, double, double> Pressures => new()
    {
        { "nitrogen", 0, 300.0, 2011.33524, 5000000.0 },
        { "nitrogen", 0, 300.0, 7586.96148, 20000000.0 },
        { "methane", 0, 300.0, 2179.90087, 5000000.0 },
        { "methane", 0, 300.0, 9678.89304, 20000000.0 },
        { "argon", 0, 300.0, 2059.55096, 5000000.0 },
        { "argon", 0, 300.0, 8406.98262, 20000000.0 },
        { "oxygen", 0, 300.0, 2061.62336, 5000000.0 },
        { "oxygen", 0, 300.0, 8448.1447, 20000000.0 },
        { "propane", 0, 300.0, 11362.8554, 5000000.0 },
        { "propane", 0, 300.0, 12033.9043, 20000000.0 },
        { "ethane", 0, 300.0, 10907.4499, 5000000.0 },
        { "ethane", 0, 300.0, 14007.0598, 20000000.0 },
        { "n-butane", 0, 300.0, 9954.83997, 5000000.0 },
        { "n-butane", 0, 300.0, 10299.359, 20000000.0 },
        { "isobutane", 0, 300.0, 9595.02721, 5000000.0 },
        { "isobutane", 0, 300.0, 9993.00384, 20000000.0 },
        { "ethylene", 0, 300.0, 3127.6551, 5000000.0 },
        { "ethylene", 0, 300.0, 14205.2425, 20000000.0 },
        { "carbon dioxide", 0, 300.0, 2917.49299, 5000000.0 },
        { "carbon dioxide", 0, 300.0, 20576.4937, 20000000.0 },
        { "air", 0, 300.0, 2023.22492, 5000000.0 },
        { "air", 0, 300.0, 7768.95357, 20000000.0 },
        { "ethylene", 1, 338.82, 15273.5, 48385336.2 },
        { "ethylene", 1, 211.763, 19855.6, 43257180.4 },
        { "propylene", 0, 437.053, 10914.0, 46179237.8 },
        { "propylene", 0, 273.158, 14188.2, 36467630.6 },
        { "isopentane", 0, 552.42, 6542.0, 39071872.2 },
        { "isopentane", 0, 345.263, 8504.6, 31670178.7 },
        { "neopentane", 0, 520.488, 6540.0, 39178019.7 },
        { "neopentane", 0, 325.305, 8502.0, 39665082.4 },
        { "1-butene", 0, 503.148, 8480.0, 43498648.5 },
        { "1-butene", 0, 314.468, 11024.0, 34069763.9 },
        { "isobutene", 0, 501.708, 8340.0, 40062417.3 },
        { "isobutene", 0, 313.567, 10842.0, 24552174.1 },
        { "krypton", 0, 251.376, 21700.0, 47377157.6 },
        { "krypton", 0, 157.11, 28210.0, 46914750.2 },
        { "xenon", 0, 347.68, 16800.0, 50297461.7 },
        { "xenon", 0, 217.3, 21840.0, 49225547.1 },
        { "nitrous oxide", 0, 371.424, 20540.0, 72182787.7 },
        { "nitrous oxide", 0, 232.14, 26702.0, 50395926.4 },
        { "carbon monoxide", 0, 159.432, 21700.0, 32195434.2 },
        { "carbon monoxide", 0, 99.645, 28210.0, 29213729.9 },
        { "octafluoropropane", 0, 414.024, 6680.0, 33731284.4 },
        { "octafluoropropane", 0, 258.765, 8684.0, 23933767.9 },
        { "hexafluoroethane", 0, 351.636, 8888.0, 32987308.4 },
        { "hexafluoroethane", 0, 219.772, 11554.4, 20117927.9 },
        { "tetrafluoromethane", 0, 273.012, 14218.8, 43312273.2 },
        { "tetrafluoromethane", 0, 170.632, 18484.5, 44008451.4 },
        { "trifluoromethane", 0, 359.152, 15040.0, 47281410.6 },
        { "trifluoromethane", 0, 224.47, 19552.0, 17057525.7 },
        { "1,1,1,2-tetrafluoroethane", 0, 449.052, 10034.1, 43850502.0 },
        { "1,1,1,2-tetrafluoroethane", 0, 280.657, 13044.3, 17968565.7 },
        { "difluoromethane", 0, 421.506, 16300.2, 51024732.0 },
        { "difluoromethane", 0, 263.441, 21190.2, 5384480.61 },
        { "sulfur hexafluoride", 0, 382.468, 10164.6, 43002973.1 },
        { "sulfur hexafluoride", 0, 239.042, 13214.0, 37891074.7 },
        { "hydrogen", 0, 39.774, 31016.0, 9310886.76 },
        { "hydrogen", 0, 24.8588, 40320.8, 17335870.9 },
        { "parahydrogen", 0, 39.5256, 31076.0, 9335982.5 },
        { "parahydrogen", 0, 24.7035, 40398.8, 17478603.0 },
        { "orthohydrogen", 0, 39.864, 30890.0, 9216528.65 },
        { "orthohydrogen", 0, 24.915, 40157.0, 16739859.3 },
        { "helium", 0, 6.23436, 34767.4, 1434543.11 },
        { "helium", 0, 3.89647, 45197.6, 3975982.35 },
        { "helium", 1, 6.23436, 34798.0, 1444735.35 },
        { "helium", 1, 3.89647, 45237.4, 3890019.2 },
        { "neon", 0, 53.3902, 47764.0, 23121464.3 },
        { "neon", 0, 33.3688, 62093.2, 29809374.3 },
        { "argon", 1, 180.824, 26814.9, 44205071.7 },
        { "argon", 1, 113.015, 34859.3, 49240776.6 },
        { "oxygen", 1, 185.514, 27259.8, 46746739.6 },
        { "oxygen", 1, 115.946, 35437.7, 50321219.8 },
        { "nitrogen", 1, 151.43, 22367.9, 31908424.2 },
        { "nitrogen", 1, 94.644, 29078.2, 33941494.3 },
        { "methane", 1, 228.677, 20278.3, 42346751.2 },
        { "methane", 1, 142.923, 26361.7, 48015776.9 },
        { "ethane", 1, 366.386, 13741.7, 48721730.6 },
        { "ethane", 1, 228.992, 17864.2, 45880021.3 },
        { "propane", 1, 443.79, 10000.5, 44521074.6 },
        { "propane", 1, 277.369, 13000.7, 36626644.8 },
        { "isobutane", 1, 489.38, 7720.29, 37428180.8 },
        { "isobutane", 1, 305.863, 10036.4, 25614095.3 },
        { "n-butane", 1, 510.15, 7840.03, 40581462.4 },
        { "n-butane", 1, 318.844, 10192.0, 29050184.2 },
        { "n-pentane", 0, 563.64, 6431.16, 37730090.3 },
        { "n-pentane", 0, 352.275, 8360.5, 24458082.1 },
    };

    /// <summary>
    /// Enthalpy, J/mol, and entropy, J/(mol K), of the ideal gas at 298.15 K and 101325 Pa. Published zeros, from memory: nitrogen 8670 and
    /// 191.5, air 8649.34 and 198.685, zero for all others but propane, whose figures are computed here.
    /// </summary>
    public static TheoryData<string, double, double> PublishedZeros => new()
    {
        { "nitrogen", 8670.0, 191.5 },
        { "methane", 0.0, 0.0 },
        { "argon", 0.0, 0.0 },
        { "oxygen", -0.021, 0.0 },
        { "propane", 27921.517, 125.71936 },
        { "ethane", 0.0, 0.0 },
        { "n-butane", 0.0, 0.0 },
        { "isobutane", 0.0, 0.0 },
        { "ethylene", 0.0, 0.0 },
        { "carbon dioxide", 0.0, 0.0 },
        { "air", 8649.34, 198.68559 },
    };

    [Fact]
    public void ThereAre43EquationsOf33Substances()
    {
        Assert.Equal(43, All.Count);
        Assert.Equal(33, Catalog.All.Count(s => s.Equations.Count > 0));
        Assert.Equal(Sums.Count, All.Count);
    }

    [Theory]
    [MemberData(nameof(Sums))]
    public void EveryTermIsThere(
        string name, int index, int density, int bell, int critical, double sum, double densitySum, double bellSum, double gasConstant, double reducing)
    {
        HelmholtzEquation equation = Catalog.Find(name).Equations[index];
        Assert.Equal(density, equation.DensityTerms.Count);
        Assert.Equal(bell, equation.BellTerms.Count);
        Assert.Equal(critical, equation.CriticalTerms.Count);
        double coefficients = equation.DensityTerms.Sum(t => t.Coefficient) + equation.BellTerms.Sum(t => t.Coefficient)
            + equation.CriticalTerms.Sum(t => t.Coefficient);
        Assert.Equal(sum, coefficients, 1e-10 * Math.Max(1, Math.Abs(sum)));
        Assert.Equal(
            densitySum,
            equation.DensityTerms.Sum(
                t => Math.Abs(t.Coefficient) * (1 + Math.Abs(t.TemperatureExponent)) * (1 + t.DensityExponent) * (1 + t.DecayExponent)),
            1e-10 * densitySum);
        Assert.Equal(
            bellSum,
            equation.BellTerms.Sum(
                t => Math.Abs(t.Coefficient)
                    * (1 + Math.Abs(t.TemperatureExponent) + t.DensityExponent + t.DensitySharpness + (2 * t.DensityCenter)
                        + (3 * t.TemperatureSharpness) + (4 * t.TemperatureCenter))),
            1e-10 * Math.Max(1, bellSum));
        Assert.Equal(gasConstant, equation.GasConstant);
        Assert.Equal(1, equation.ReducingTemperature * equation.ReducingMolarDensity / reducing, 1e-11);
    }

    [Theory]
    [MemberData(nameof(HeatCapacities))]
    public void TheIdealGasPartGivesTheHeatCapacity(string name, int index, double temperature, double expected, double tolerance)
    {
        HelmholtzEquation equation = Catalog.Find(name).Equations[index];
        Assert.Equal(expected, equation.GasConstant * equation.IdealGas.HeatCapacity.OverGasConstant(temperature), tolerance);
    }

    [Theory]
    [MemberData(nameof(Pressures))]
    public void TheTermsGiveThePressure(string name, int index, double temperature, double molarDensity, double expected)
    {
        // The tabulated density has nine digits; along a steep liquid isotherm they are worth up to 1e-6 of the pressure.
        HelmholtzEquation equation = Catalog.Find(name).Equations[index];
        double pressure = PlainHelmholtz.Pressure(equation, temperature, molarDensity);
        (double slope, _) = PlainHelmholtz.PressureDerivatives(equation, temperature, molarDensity);
        double rounding = 1e-9 * molarDensity * equation.GasConstant * temperature * Math.Abs(slope);
        Assert.Equal(expected, pressure, (1e-8 * expected) + (5 * rounding));
    }

    /// <summary>Where the equation carries terms that are not analytic at the critical point, or describes a mixture, the published one is given.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void TheCriticalPointIsTheEquationsOwn(string name, int index)
    {
        HelmholtzEquation equation = Catalog.Find(name).Equations[index];
        FluidPoint critical = equation.CriticalPoint;
        if (equation.CriticalTerms.Count > 0 || equation.IsPseudoPure)
        {
            Assert.Equal(equation.ReducingTemperature, critical.Temperature);
            Assert.Equal(equation.ReducingMolarDensity, critical.MolarDensity);
            return;
        }

        (double slope, double curvature) = PlainHelmholtz.PressureDerivatives(equation, critical.Temperature, critical.MolarDensity);
        Assert.Equal(0, slope, 1e-9);
        Assert.Equal(0, curvature, 1e-6);
        Assert.Equal(1, PlainHelmholtz.Pressure(equation, critical.Temperature, critical.MolarDensity) / critical.Pressure, 1e-9);
    }

    [Theory]
    [MemberData(nameof(PublishedZeros))]
    public void ThePublishedConstantsGiveThePublishedZero(string name, double enthalpy, double entropy)
    {
        IdealGasForm form = Catalog.Find(name).Equations[0].IdealGas;
        Assert.Equal(enthalpy, form.PublishedEnthalpy, 1.01e-3);
        Assert.Equal(entropy, form.PublishedEntropy, 1.1e-5);
        Assert.NotEmpty(form.PublishedReference);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void EveryEquationCarriesItsSourceAndItsLines(string name, int index)
    {
        Substance substance = Catalog.Find(name);
        HelmholtzEquation equation = substance.Equations[index];
        Assert.True(equation.Provenance.Source.FromMemory);
        Assert.NotEmpty(equation.Provenance.Source.Verified!);
        Assert.Equal(equation.Provenance.Source.Publication, equation.ToString());
        Assert.NotNull(equation.VaporPressure);
        Assert.NotNull(equation.SaturatedLiquidDensity);
        Assert.NotNull(equation.SaturatedVaporDensity);
        Assert.Equal(equation.IsPseudoPure, equation.DewPressure is not null);
        Assert.Equal(equation.IsPseudoPure, substance.Name == "air");
        Assert.Equal(substance.Identity.Key.StartsWith("1333-74-0", StringComparison.Ordinal), equation.SpinEnthalpyOffset != 0);
        Assert.True(index == 0 || equation.Standard == EquationStandard.Technical);
    }

    /// <summary>
    /// Sublimation and melting meet the vapour-pressure line at the triple point. 3 %: the tiny triple pressures of the hydrocarbons are
    /// recalled to two or three digits; melting curves are compared on the temperature axis, 0.03 K.
    /// </summary>
    [Theory]
    [InlineData("nitrogen")]
    [InlineData("argon")]
    [InlineData("methane")]
    [InlineData("ethylene")]
    [InlineData("ethane")]
    [InlineData("carbon monoxide")]
    [InlineData("carbon dioxide")]
    public void TheLinesMeetAtTheTriplePoint(string name)
    {
        HelmholtzEquation equation = Catalog.Find(name).Equations[0];
        double triple = equation.TripleTemperature!.Value;
        double vapor = equation.VaporPressure!.At(triple);
        Assert.Equal(1, equation.SublimationPressure!.At(equation.SublimationPressure.HighestTemperature) / vapor, 0.03);
        SaturationCurve melting = equation.MeltingPressure!;
        double slope = (melting.At(triple + 1e-3) - melting.At(triple)) / 1e-3;
        Assert.InRange((melting.At(triple) - vapor) / slope, -0.03, 0.03);
    }

    [Fact]
    public void TheRecommendedEquationComesFirst()
    {
        Assert.Equal(
            [EquationStandard.Reference, EquationStandard.Technical], Catalog.Find("propane").Equations.Select(e => e.Standard));
        Assert.Equal(11, Catalog.All.Count(s => s.Equations.Count == 2) + Catalog.All.Count(s => s.Name is "air"));
        Assert.Equal(EquationStandard.Technical, Assert.Single(Catalog.Find("n-pentane").Equations).Standard);
    }
}
