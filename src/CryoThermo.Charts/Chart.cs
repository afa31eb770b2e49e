using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>A chart that can be saved, or stand in a page. Immutable and thread-safe: each call draws a plot of its own, since those of the drawing library are not.</summary>
public abstract class Chart
{
    private const int SmallestSide = 200;
    private const int LargestSide = 10_000;

    private protected Chart()
    {
    }

    /// <summary>Writes the chart as an SVG file.</summary>
    /// <param name="path">The file; an existing one is replaced.</param>
    /// <param name="widthPixels">Width, 200 to 10 000 pixels.</param>
    /// <param name="heightPixels">Height, 200 to 10 000 pixels.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is out of its range.</exception>
    public void SaveSvg(string path, int widthPixels = ChartStyle.DefaultWidth, int heightPixels = ChartStyle.DefaultHeight)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        File.WriteAllText(path, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n" + ToSvg(widthPixels, heightPixels));
    }

    /// <summary>Writes the chart as a PNG file.</summary>
    /// <param name="path">The file; an existing one is replaced.</param>
    /// <param name="widthPixels">Width, 200 to 10 000 pixels.</param>
    /// <param name="heightPixels">Height, 200 to 10 000 pixels.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is out of its range.</exception>
    public void SavePng(string path, int widthPixels = ChartStyle.DefaultWidth, int heightPixels = ChartStyle.DefaultHeight)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        File.WriteAllBytes(path, Render(widthPixels, heightPixels, static (plot, w, h) => plot.GetImageBytes(w, h, ImageFormat.Png)));
    }

    /// <summary>The chart as an SVG element without an XML declaration, to stand inside a page.</summary>
    /// <param name="widthPixels">Width, 200 to 10 000 pixels.</param>
    /// <param name="heightPixels">Height, 200 to 10 000 pixels.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is out of its range.</exception>
    public string ToSvg(int widthPixels = ChartStyle.DefaultWidth, int heightPixels = ChartStyle.DefaultHeight)
    {
        string svg = Render(widthPixels, heightPixels, static (plot, w, h) => plot.GetSvgXml(w, h));
        int root = svg.IndexOf("<svg", StringComparison.Ordinal);
        return root < 0 ? throw new InvalidOperationException("The drawing library returned no svg element.") : svg[root..];
    }

    private protected abstract Plot Draw(int width, int height);

    private T Render<T>(int widthPixels, int heightPixels, Func<Plot, int, int, T> write)
    {
        CheckSide(widthPixels, nameof(widthPixels));
        CheckSide(heightPixels, nameof(heightPixels));
        using Plot plot = Draw(widthPixels, heightPixels);
        return write(plot, widthPixels, heightPixels);
    }

    private static void CheckSide(int pixels, string name)
    {
        if (pixels is < SmallestSide or > LargestSide)
        {
            throw new ArgumentOutOfRangeException(name, pixels, $"{name} is {pixels} pixels; allowed is {SmallestSide} to {LargestSide} pixels.");
        }
    }
}
