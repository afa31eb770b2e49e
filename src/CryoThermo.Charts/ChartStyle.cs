using System.Globalization;
using ScottPlot;
using ScottPlot.TickGenerators;
using SkiaSharp;

namespace CryoThermo.Charts;

/// <summary>The common look: colours, sizes, axes with units, legend below the data.</summary>
internal static class ChartStyle
{
    public const int DefaultWidth = 800;
    public const int DefaultHeight = 500;
    public const float TextSize = 14;
    public const float CurveWidth = 2.5f;

    // Exact by definition of the degree Celsius.
    private const double CelsiusZeroKelvins = 273.15;

    // Pixels: what the axes beside the data area take from the legend's width, and more rows than a chart will have.
    private const int LegendSideRoom = 140;
    private const int LargestLegendHeight = 400;

    // The palette for colour-blind readers of M. Okabe and K. Ito, "Color Universal Design", 2008 (from memory).
    public static readonly Color Blue = Color.FromHex("#0072B2");
    public static readonly Color Vermilion = Color.FromHex("#D55E00");
    public static readonly Color BluishGreen = Color.FromHex("#009E73");
    public static readonly Color Black = Color.FromHex("#000000");

    // The drawing library's own choice can fall on a serif face; null leaves it to that choice.
    public static readonly string? SansSerif =
        Array.Find(["Liberation Sans", "DejaVu Sans", "Arial", "Helvetica"], static name => SKFontManager.Default.FontFamilies.Contains(name));

    public static Plot NewPlot(string title)
    {
        var plot = new Plot();
        plot.FigureBackground.Color = Colors.White;
        plot.Grid.MajorLineColor = Color.FromHex("#E4E4E4");
        if (title.Length > 0)
        {
            plot.Title(title, TextSize + 2);
        }

        if (SansSerif is { } font)
        {
            plot.Font.Set(font);
            plot.Legend.FontName = font;
        }

        foreach (IAxis axis in plot.Axes.GetAxes())
        {
            axis.TickGenerator = new NumericAutomatic
            {
                // No thousands separators, no exponents in the ranges met here.
                LabelFormatter = static value => Math.Abs(value) < 1e-9 ? "0" : value.ToString("0.######", CultureInfo.InvariantCulture),
                TickDensity = 0.7,
            };
            axis.Label.FontSize = TextSize;
            axis.Label.Bold = false;
            axis.TickLabelStyle.FontSize = TextSize - 1;
            axis.MinorTickStyle.Length = 0;
        }

        return plot;
    }

    /// <summary>Temperature in kelvins on the left, the same in degrees Celsius on the right.</summary>
    public static void TemperatureUpwards(Plot plot, double lowKelvins, double highKelvins)
    {
        plot.Axes.Left.Label.Text = "temperature, K";
        plot.Axes.Right.Label.Text = "temperature, °C";
        plot.Axes.SetLimitsY(lowKelvins, highKelvins, plot.Axes.Left);
        plot.Axes.SetLimitsY(lowKelvins - CelsiusZeroKelvins, highKelvins - CelsiusZeroKelvins, plot.Axes.Right);
    }

    /// <summary>Temperature in kelvins below, the same in degrees Celsius above.</summary>
    public static void TemperatureAcross(Plot plot, double lowKelvins, double highKelvins, string what)
    {
        plot.Axes.Bottom.Label.Text = $"{what}, K";
        plot.Axes.Top.Label.Text = $"{what}, °C";

        // As delivered the label stands on the panel's outer edge, in the title; this brings it inside.
        plot.Axes.Top.Label.OffsetY = TextSize + 3;
        plot.Axes.SetLimitsX(lowKelvins, highKelvins, plot.Axes.Bottom);
        plot.Axes.SetLimitsX(lowKelvins - CelsiusZeroKelvins, highKelvins - CelsiusZeroKelvins, plot.Axes.Top);
    }

    /// <summary>Puts the legend under the axes, where it cannot cover data, in as many rows as the width asks for.</summary>
    public static void LegendBelow(Plot plot, int width)
    {
        var panel = plot.ShowLegend(Edge.Bottom);
        plot.Legend.Orientation = Orientation.Horizontal;
        plot.Legend.FontSize = TextSize - 1;
        plot.Legend.OutlineWidth = 0;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.SymbolWidth = 30;
        panel.Alignment = Alignment.UpperCenter;
        panel.Padding = new PixelPadding(0);

        // The panel measures itself on an endless row.
        using Paint paint = Paint.NewDisposablePaint();
        panel.MinimumSize = plot.Legend.GetLayout(new PixelSize(width - LegendSideRoom, LargestLegendHeight), paint).LegendRect.Height;
    }
}
