using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>Writes a freshly drawn plot; the drawing library's plots are not thread-safe, so each call draws its own.</summary>
internal static class ChartWriter
{
    private const int SmallestSide = 200;
    private const int LargestSide = 10_000;

    public static string ToSvg(Func<int, int, Plot> draw, int width, int height)
    {
        string svg = Render(draw, width, height, static (plot, w, h) => plot.GetSvgXml(w, h));
        int root = svg.IndexOf("<svg", StringComparison.Ordinal);
        return root < 0 ? throw new InvalidOperationException("The drawing library returned no svg element.") : svg[root..];
    }

    public static void SaveSvg(Func<int, int, Plot> draw, string path, int width, int height)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        File.WriteAllText(path, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n" + ToSvg(draw, width, height));
    }

    public static void SavePng(Func<int, int, Plot> draw, string path, int width, int height)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        File.WriteAllBytes(path, Render(draw, width, height, static (plot, w, h) => plot.GetImageBytes(w, h, ImageFormat.Png)));
    }

    private static T Render<T>(Func<int, int, Plot> draw, int width, int height, Func<Plot, int, int, T> write)
    {
        CheckSide(width, nameof(width));
        CheckSide(height, nameof(height));
        using Plot plot = draw(width, height);
        return write(plot, width, height);
    }

    private static void CheckSide(int pixels, string name)
    {
        if (pixels is < SmallestSide or > LargestSide)
        {
            throw new ArgumentOutOfRangeException(
                name, pixels, $"{name} is {pixels} pixels; allowed is {SmallestSide} to {LargestSide} pixels.");
        }
    }
}
