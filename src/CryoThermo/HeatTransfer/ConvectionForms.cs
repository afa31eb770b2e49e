namespace CryoThermo.HeatTransfer;

/// <summary>Nusselt numbers as functions of Rayleigh, Reynolds and Prandtl numbers; with Schmidt for Prandtl they are Sherwood numbers. No checks.</summary>
internal static class ConvectionForms
{
    /// <summary>Vertical plate, natural convection: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, laminar and turbulent (from memory).</summary>
    public static double VerticalPlate(double rayleigh, double prandtl)
    {
        double root = 0.825 + (0.387 * Math.Pow(rayleigh, 1.0 / 6) / Math.Pow(1 + Math.Pow(0.492 / prandtl, 9.0 / 16), 8.0 / 27));
        return root * root;
    }

    /// <summary>Horizontal cylinder, natural convection: S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1049 (from memory).</summary>
    public static double HorizontalCylinder(double rayleigh, double prandtl)
    {
        double root = 0.60 + (0.387 * Math.Pow(rayleigh, 1.0 / 6) / Math.Pow(1 + Math.Pow(0.559 / prandtl, 9.0 / 16), 8.0 / 27));
        return root * root;
    }

    /// <summary>
    /// How much more a slender vertical cylinder takes than a plate: C. O. Popiel, Heat Transfer Eng. 29 (2008) 521, after T. Cebeci (1974), for air (from memory).
    /// </summary>
    /// <param name="slenderness">Height over diameter, times the root of 32, over the fourth root of the Grashof number of the height.</param>
    public static double Curvature(double slenderness) => 1 + (0.300 * Math.Pow(slenderness, 0.909));

    /// <summary>Horizontal plate, its buoyant side free: W. H. McAdams (1954), J. R. Lloyd, W. R. Moran, J. Heat Transfer 96 (1974) 443 (from memory). The greater of both meets the other at Ra 4.7e6.</summary>
    public static double HorizontalPlateFree(double rayleigh) => Math.Max(0.54 * Math.Pow(rayleigh, 0.25), 0.15 * Math.Cbrt(rayleigh));

    /// <summary>Horizontal plate, its buoyant side covered by itself: W. H. McAdams, Heat Transmission (1954) (from memory).</summary>
    public static double HorizontalPlateCovered(double rayleigh) => 0.27 * Math.Pow(rayleigh, 0.25);

    /// <summary>Plate along a stream, laminar, and from Re 5e5 turbulent behind: any textbook (from memory).</summary>
    public static double PlateAlong(double reynolds, double prandtl) =>
        (reynolds <= 5e5 ? 0.664 * Math.Sqrt(reynolds) : (0.037 * Math.Pow(reynolds, 0.8)) - 871) * Math.Cbrt(prandtl);

    /// <summary>Cylinder across a stream: S. W. Churchill, M. Bernstein, J. Heat Transfer 99 (1977) 300 (from memory), Re Pr above 0.2.</summary>
    public static double CylinderAcross(double reynolds, double prandtl) => 0.3
        + (0.62 * Math.Sqrt(reynolds) * Math.Cbrt(prandtl) / Math.Pow(1 + Math.Pow(0.4 / prandtl, 2.0 / 3), 0.25)
            * Math.Pow(1 + Math.Pow(reynolds / 282_000, 0.625), 0.8));

    /// <summary>Vertical gap: S. M. ElSherbiny, G. D. Raithby, K. G. T. Hollands, J. Heat Transfer 104 (1982) 96 (from memory).</summary>
    /// <param name="rayleigh">On the width of the gap.</param>
    /// <param name="aspect">Height over width.</param>
    public static double VerticalGap(double rayleigh, double aspect)
    {
        double turbulent = 0.0605 * Math.Cbrt(rayleigh);
        double change = Math.Cbrt(1 + Math.Pow(0.104 * Math.Pow(rayleigh, 0.293) / (1 + Math.Pow(6310 / rayleigh, 1.36)), 3));
        double laminar = 0.242 * Math.Pow(rayleigh / aspect, 0.272);
        return Math.Max(turbulent, Math.Max(change, laminar));
    }

    /// <summary>Horizontal gap with the warm side below: K. G. T. Hollands, G. D. Raithby, L. Konicek, Int. J. Heat Mass Transfer 18 (1975) 879 (from memory).</summary>
    public static double GapHeatedBelow(double rayleigh) =>
        1 + (1.44 * Math.Max(0, 1 - (1708 / rayleigh))) + Math.Max(0, Math.Cbrt(rayleigh / 5830) - 1);

    /// <summary>Rayleigh length of the annulus between horizontal cylinders: G. D. Raithby, K. G. T. Hollands, Adv. Heat Transfer 11 (1975) 265 (from memory).</summary>
    public static double AnnulusLength(double inner, double outer) =>
        2 * Math.Pow(Math.Log(outer / inner), 4.0 / 3) / Math.Pow(Math.Pow(inner, -0.6) + Math.Pow(outer, -0.6), 5.0 / 3);

    /// <summary>Effective over true conductivity in that annulus, at least 1: the same publication.</summary>
    public static double Annulus(double rayleigh, double prandtl) =>
        Math.Max(1, 0.386 * Math.Pow(prandtl / (0.861 + prandtl), 0.25) * Math.Pow(rayleigh, 0.25));
}
