namespace CryoThermo.Numerics;

/// <summary>Eigenvalues of small symmetric matrices in caller-owned memory, row-major, by cyclic Jacobi rotations.</summary>
internal static class SymmetricEigen
{
    private const int Sweeps = 40;

    /// <summary>Smallest eigenvalue of a and its eigenvector of length 1.</summary>
    /// <param name="a">N x N, symmetric; destroyed.</param>
    /// <param name="n">Number of rows.</param>
    /// <param name="work">N x N working memory.</param>
    /// <param name="vector">Receives the eigenvector.</param>
    public static double Smallest(Span<double> a, int n, Span<double> work, Span<double> vector)
    {
        work.Clear();
        for (int i = 0; i < n; i++)
        {
            work[(i * n) + i] = 1;
        }

        for (int sweep = 0; sweep < Sweeps; sweep++)
        {
            double off = 0;
            double whole = 0;
            for (int i = 0; i < n; i++)
            {
                whole += a[(i * n) + i] * a[(i * n) + i];
                for (int j = 0; j < i; j++)
                {
                    off += a[(i * n) + j] * a[(i * n) + j];
                }
            }

            if (!(off > 1e-34 * (whole + off)))
            {
                break;
            }

            for (int p = 0; p < n; p++)
            {
                for (int q = p + 1; q < n; q++)
                {
                    Rotate(a, work, n, p, q);
                }
            }
        }

        int least = 0;
        for (int i = 1; i < n; i++)
        {
            least = a[(i * n) + i] < a[(least * n) + least] ? i : least;
        }

        for (int i = 0; i < n; i++)
        {
            vector[i] = work[(i * n) + least];
        }

        return a[(least * n) + least];
    }

    private static void Rotate(Span<double> a, Span<double> vectors, int n, int p, int q)
    {
        double apq = a[(p * n) + q];
        if (apq == 0)
        {
            return;
        }

        double theta = (a[(q * n) + q] - a[(p * n) + p]) / (2 * apq);
        double t = (theta >= 0 ? 1 : -1) / (Math.Abs(theta) + Math.Sqrt((theta * theta) + 1));
        double c = 1 / Math.Sqrt((t * t) + 1);
        double s = t * c;
        for (int k = 0; k < n; k++)
        {
            double akp = a[(k * n) + p];
            double akq = a[(k * n) + q];
            a[(k * n) + p] = (c * akp) - (s * akq);
            a[(k * n) + q] = (s * akp) + (c * akq);
        }

        for (int k = 0; k < n; k++)
        {
            double apk = a[(p * n) + k];
            double aqk = a[(q * n) + k];
            a[(p * n) + k] = (c * apk) - (s * aqk);
            a[(q * n) + k] = (s * apk) + (c * aqk);
            double vkp = vectors[(k * n) + p];
            double vkq = vectors[(k * n) + q];
            vectors[(k * n) + p] = (c * vkp) - (s * vkq);
            vectors[(k * n) + q] = (s * vkp) + (c * vkq);
        }
    }
}
